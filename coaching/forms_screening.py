"""What a clinician said, as the coach types it."""

import datetime as dt
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _


class ClearanceForm(forms.Form):
    cleared = forms.TypedChoiceField(
        label=_("The clinician says"),
        choices=[("yes", _("may train")), ("no", _("not to train for now"))],
        coerce=lambda value: value == "yes",
        widget=forms.RadioSelect,
    )
    clinician = forms.CharField(
        label=_("Who said it"), max_length=120, help_text=_("Name and profession, as far as the client told you.")
    )
    said_on = forms.DateField(label=_("On"), widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"))
    note = forms.CharField(
        label=_("Conditions"),
        max_length=300,
        required=False,
        help_text=_("What may be done and what not. Joints and positions also belong under limits."),
    )

    def __init__(self, *args: Any, today: dt.date, **kwargs: Any) -> None:
        super().__init__(*args, label_suffix="", **kwargs)
        self.today = today

    def clean_said_on(self) -> dt.date:
        day = self.cleaned_data["said_on"]
        if day > self.today:
            raise forms.ValidationError(_("That day is still to come."))
        if day < self.today - dt.timedelta(days=365):
            raise forms.ValidationError(_("That is over a year ago. Ask for a newer word."))
        return day
