"""Forms about a program as a whole."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from accounts.models.client import TrainingStatus


class PlainForm(forms.Form):
    """A form whose labels end without a colon."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **{"label_suffix": "", **kwargs})


class ProgramForm(PlainForm):
    name = forms.CharField(label=_("Name"), max_length=120)
    note = forms.CharField(
        label=_("Note"),
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text=_("For coaches. Clients do not see it."),
    )
    written_for = forms.ChoiceField(
        label=_("Written for"),
        choices=TrainingStatus.choices,
        initial=TrainingStatus.INTERMEDIATE,
        help_text=_("Weekly sets are judged by the usual range for this training status."),
    )


class NewProgramForm(ProgramForm):
    name = forms.CharField(label=_("Name"), max_length=120, widget=forms.TextInput(attrs={"autofocus": True}))
    days = forms.IntegerField(
        label=_("Training days a week"),
        min_value=1,
        max_value=7,
        initial=3,
        help_text=_("Days can be added and removed later."),
    )


class OutlookForm(forms.Form):
    """For whom, and on which weekdays, a program is thought."""

    written_for = forms.ChoiceField(choices=TrainingStatus.choices)
    session_minutes = forms.IntegerField(
        required=False,
        min_value=10,
        max_value=300,
        error_messages={
            "invalid": _("Minutes of a session: write a whole number."),
            "min_value": _("Minutes of a session must lie between 10 and 300."),
            "max_value": _("Minutes of a session must lie between 10 and 300."),
        },
    )

    def __init__(self, *args: Any, days: int, outlooks: list[tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.days = days
        self.fields["written_for"].choices = outlooks
        for number in range(days):
            self.fields[f"weekday_{number}"] = forms.IntegerField(min_value=0, max_value=6)

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if len(set(self.weekdays())) != self.days:
            raise forms.ValidationError(_("Choose a different weekday for each training day."))
        return values

    def weekdays(self) -> list[int]:
        return [
            self.cleaned_data[f"weekday_{number}"]
            for number in range(self.days)
            if self.cleaned_data.get(f"weekday_{number}") is not None
        ]
