"""What a coach says on the page that fits a running copy again."""

from typing import Any

from django import forms
from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _

from accounts.models import Practice
from coaching.fitting.again import SomeDays
from programs.services.exercise_visible import equipment_of


def day_field(label: Any, **more: Any) -> forms.DateField:
    return forms.DateField(label=label, widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"), **more)


class SomeDaysForm(forms.Form):
    """Which days, and what is there; read from the address, so that a look at it writes nothing."""

    first = day_field(_("First day"))
    last = day_field(_("Last day"))
    minutes = forms.IntegerField(
        label=_("Minutes for a session"),
        required=False,
        min_value=15,
        max_value=240,
        help_text=_("Empty: as otherwise."),
    )
    gear = forms.ModelMultipleChoiceField(
        queryset=None,
        required=False,
        widget=forms.CheckboxSelectMultiple,
        label=_("Equipment there"),
        help_text=_("Nothing ticked: what the client has otherwise."),
    )

    def __init__(self, *args: Any, practice: Practice, **kwargs: Any) -> None:
        super().__init__(*args, label_suffix="", **kwargs)
        self.fields["gear"].queryset = equipment_of(practice)
        self.fields["gear"].label_from_instance = lambda row: capfirst(row.name)

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if values.get("first") and values.get("last") and values["last"] < values["first"]:
            self.add_error("last", _("The last day lies before the first."))
        return values

    def days(self) -> SomeDays:
        """Return what was said, once it is valid."""
        gear = frozenset(row.pk for row in self.cleaned_data["gear"])
        return SomeDays(
            self.cleaned_data["first"], self.cleaned_data["last"], gear or None, self.cleaned_data["minutes"]
        )
