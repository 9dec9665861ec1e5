"""Answers to a prompt."""

from django import forms
from django.utils.translation import gettext_lazy as _


class AcceptForm(forms.Form):
    """`seen` is the print of the numbers on the page."""

    prefix = "accept"
    seen = forms.CharField(widget=forms.HiddenInput, max_length=16)
    reason = forms.CharField(label=_("Reason (if you want to add one)"), max_length=300, required=False)


class RefuseForm(forms.Form):
    prefix = "refuse"
    reason = forms.CharField(
        label=_("Reason"),
        max_length=300,
        error_messages={"required": _("Say in a few words why not: it is what you will read next time.")},
    )
