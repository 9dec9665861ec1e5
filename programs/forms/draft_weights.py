"""Every weight of a draft, with its default and what it means."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from programs.services import draft_bounds as bounds
from programs.services.draft_ask import default_weights
from programs.views.program_forms import PlainForm
from programs.views.program_targets_form import SetsField

MEANINGS: tuple[tuple[Any, tuple[tuple[str, Any, Any], ...]], ...] = (
    (
        _("Earns points"),
        (
            ("floor", _("Sets up to the floor"), _("for each fractional set, times the priority")),
            ("volume", _("Sets above the floor"), _("for each up to the middle of the range, times the priority")),
            ("heads", _("A head trained directly"), _("once, times the priority")),
            ("long", _("A group loaded while long"), _("once, times the priority")),
            ("variety", _("A joint action trained"), _("once, times the priority")),
        ),
    ),
    (
        _("Costs points"),
        (
            ("grade", _("A set of a badly graded exercise"), _("all of it with every grade at 1, nothing at 5")),
            ("setup", _("A minute of setting up"), ""),
            ("station", _("A piece of equipment used on a day"), _("fewer changes of place")),
            ("repeat", _("The same exercise on a further day"), ""),
            ("spacing", _("A group trained again within 48 hours"), _("times the priority")),
            ("over", _("A set over a ceiling that is a wish"), _("ceilings asked for here are musts")),
        ),
    ),
    (
        _("What the grades count among themselves"),
        (
            ("grades.activation", _("Activation"), ""),
            ("grades.long_length", _("Load at long length"), ""),
            ("grades.loadability", _("Loadability"), ""),
            ("grades.near_failure", _("Safety near failure"), ""),
        ),
    ),
    (
        _("What a priority multiplies by"),
        (
            ("priority.focus", _("focus"), ""),
            ("priority.normal", _("normal"), ""),
            ("priority.maintain", _("maintain"), ""),
            ("priority.incidental", _("trained along"), ""),
        ),
    ),
)


class WeightsForm(PlainForm):
    """`weight-floor`, `weight-grades.activation` and so on; what is left empty has its default."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.defaults = default_weights()
        for _title, rows in MEANINGS:
            for name, label, _meaning in rows:
                self.fields[f"weight-{name}"] = SetsField(
                    label=label,
                    required=False,
                    min_value=bounds.WEIGHT[0],
                    max_value=bounds.WEIGHT[1],
                    widget=forms.TextInput(
                        attrs={
                            "inputmode": "decimal",
                            "placeholder": f"{self.defaults[name]:g}",
                            "autocomplete": "off",
                        }
                    ),
                )

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if self.errors:
            return values
        weights = {**self.defaults, **self.weights()}
        if weights["floor"] < weights["volume"]:
            self.add_error("weight-floor", _("A set up to the floor must weigh at least as much as one above it."))
        if not any(value for name, value in weights.items() if name.startswith("grades.")):
            self.add_error("weight-grades.activation", _("At least one of the four grades needs a weight over 0."))
        return values

    def weights(self) -> dict[str, float]:
        """Return what differs from the defaults."""
        given = {name: self.cleaned_data.get(f"weight-{name}") for name in self.defaults}
        return {name: value for name, value in given.items() if value is not None and value != self.defaults[name]}

    def sections(self) -> list[tuple[Any, list[tuple[forms.BoundField, Any, float]]]]:
        return [
            (title, [(self[f"weight-{name}"], meaning, self.defaults[name]) for name, _label, meaning in rows])
            for title, rows in MEANINGS
        ]

    def changed(self) -> int:
        """Return how many weights are not at their default, as far as can be told."""
        values = [self[f"weight-{name}"].value() for name in self.defaults]
        return sum(value not in (None, "") for value in values)
