"""What a coach types at the desk: answers to a prompt, comments, notes."""

import datetime as dt

from django import forms
from django.utils.translation import gettext_lazy as _

from coaching.models.note import MOST_CHARACTERS
from coaching.recompute.calendar import week_of
from logbook.forms.comment_form import CommentForm


class AcceptForm(forms.Form):
    """`seen` is the print of the numbers on the page."""

    prefix = "accept"
    seen = forms.CharField(widget=forms.HiddenInput, max_length=16)
    reason = forms.CharField(label=_("Reason (if you want to add one)"), max_length=300, required=False)


class RefuseForm(forms.Form):
    prefix = "refuse"
    reason = forms.CharField(
        label=_("Reason to refuse"),
        max_length=300,
        error_messages={"required": _("Say in a few words why not: it is what you will read next time.")},
    )


class ManyReasonForm(forms.Form):
    """One reason for all that are accepted together."""

    reason = forms.CharField(label=_("Reason (if you want to add one)"), max_length=300, required=False)


class DeskCommentForm(CommentForm):
    """`week` is the Monday of the week it is about, if any."""

    week = forms.DateField(widget=forms.HiddenInput, required=False)

    def clean_week(self) -> dt.date | None:
        day = self.cleaned_data["week"]
        return week_of(day) if day else None


class NoteForm(forms.Form):
    text = forms.CharField(
        label=_("Note"),
        max_length=MOST_CHARACTERS,
        widget=forms.Textarea(attrs={"rows": 4}),
        error_messages={"required": _("Write something first.")},
    )
