"""What is typed as a comment, on the phone and at the desk."""

import uuid
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from logbook.forms.operation import OperationForm
from logbook.models.comment import MOST_CHARACTERS


class CommentForm(OperationForm):
    """`comment` is the comment's id, made with the page: a double tap on the button writes it once."""

    kind = "comment.write"
    comment = forms.UUIDField(widget=forms.HiddenInput)
    text = forms.CharField(
        label=_("Your comment"),
        max_length=MOST_CHARACTERS,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={"required": _("Write something first.")},
    )


def empty_comment(form: type[CommentForm] = CommentForm, **initial: Any) -> CommentForm:
    """Return an empty form with ids of its own."""
    return form(initial={"op": uuid.uuid4(), "comment": uuid.uuid4(), **initial}, label_suffix="")
