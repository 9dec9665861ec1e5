"""A client's equipment, minutes and limits, as a coach or the client types them."""

import datetime as dt
from typing import Any

from django import forms
from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _

from accounts.models import Client, Practice
from programs.forms.library_choices import limit_choices
from programs.models import Exercise, Limit
from programs.services.exercise_visible import equipment_of, exercises_of


class EquipmentForm(forms.Form):
    """Nothing ticked means everything."""

    equipment = forms.ModelMultipleChoiceField(
        queryset=None,
        required=False,
        widget=forms.CheckboxSelectMultiple,
        label=_("Equipment"),
        help_text=_("Tick what is there. Nothing ticked means everything."),
    )
    minutes = forms.IntegerField(
        label=_("Minutes for a session"),
        required=False,
        min_value=15,
        max_value=240,
        help_text=_("From the first set-up to the last repetition. Empty: as long as it takes."),
    )

    def __init__(self, *args: Any, practice: Practice, **kwargs: Any) -> None:
        super().__init__(*args, label_suffix="", **kwargs)
        field = self.fields["equipment"]
        field.queryset = equipment_of(practice)
        field.label_from_instance = lambda row: capfirst(row.name)


class LimitForm(forms.Form):
    """One joint stress, position or exercise to keep from."""

    limit = forms.ModelChoiceField(
        queryset=Limit.objects.none(), required=False, label=_("Keep from"), empty_label=_("Choose")
    )
    exercise = forms.ModelChoiceField(
        queryset=Exercise.objects.none(), required=False, label=_("Or a single exercise"), empty_label=_("Choose")
    )
    until = forms.DateField(
        label=_("Until"),
        required=False,
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        help_text=_("The last day. Empty: until it is taken off."),
    )
    note = forms.CharField(label=_("Note"), required=False, max_length=200)

    def __init__(self, *args: Any, client: Client, today: dt.date, **kwargs: Any) -> None:
        super().__init__(*args, label_suffix="", **kwargs)
        self.client, self.today = client, today
        self.fields["limit"].queryset = Limit.objects.all()
        self.fields["limit"].choices = [("", _("Choose")), *limit_choices()]
        self.fields["exercise"].queryset = exercises_of(client.practice)

    def clean_until(self) -> dt.date | None:
        day = self.cleaned_data["until"]
        if day and day < self.today:
            raise forms.ValidationError(_("That day is over."))
        return day

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if bool(values.get("limit")) == bool(values.get("exercise")) and not self.errors:
            raise forms.ValidationError(_("Choose one: a joint or position, or a single exercise."))
        return values
