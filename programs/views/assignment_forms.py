"""The form that hands a program out: who, from when, on which weekdays."""

from datetime import date
from typing import Any

from django import forms
from django.utils.dates import WEEKDAYS
from django.utils.translation import gettext_lazy as _

from programs.document import Document
from programs.services.assignment_dates import days_a_week
from programs.views.program_forms import PlainForm


class AssignForm(PlainForm):
    """`clients` are checked by the view against those whom the coach may write for."""

    starts_on = forms.DateField(label=_("First day"), widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"))
    end_running = forms.BooleanField(
        label=_("End what they follow now on the day before"), required=False, initial=True
    )

    def __init__(
        self, *args: Any, document: Document, day_names: list[str], weekdays: list[int], **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.days = days_a_week(document)
        for number in range(self.days):
            self.fields[f"weekday_{number}"] = forms.TypedChoiceField(
                label=day_names[number], choices=list(WEEKDAYS.items()), coerce=int, initial=weekdays[number]
            )

    def clean_starts_on(self) -> date:
        value = self.cleaned_data["starts_on"]
        if not date(2000, 1, 1) <= value <= date(2200, 1, 1):
            raise forms.ValidationError(_("Choose a date of this century."))
        return value

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if len(set(self.weekdays())) != self.days and not self.errors:
            raise forms.ValidationError(_("Choose a different weekday for each training day."))
        return values

    def weekdays(self) -> list[int]:
        return [self.cleaned_data[f"weekday_{n}"] for n in range(self.days) if f"weekday_{n}" in self.cleaned_data]

    def weekday_fields(self) -> list[forms.BoundField]:
        return [self[f"weekday_{number}"] for number in range(self.days)]
