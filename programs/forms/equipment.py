"""A practice's own equipment and the loads it really makes."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from accounts.models import LoadUnit
from periodization.loads import ladder_from_dict
from programs.forms.equipment_text import LoadsField, PairsField, loads_text, pairs_text
from programs.models import Equipment

KINDS = Equipment.Kind
# Which of the fields below describe the loads of which kind.
PARTS = {
    KINDS.PLATES: ("bar", "pairs"),
    KINDS.DUMBBELLS: ("values", "low", "high", "step"),
    KINDS.STACK: ("values", "low", "high", "step", "add_ons"),
    KINDS.BODY: ("values", "low", "high", "step"),
    KINDS.ASSISTED: ("values", "low", "high", "step", "add_ons"),
    KINDS.NONE: (),
}


class EquipmentForm(forms.Form):
    """Loads are typed in the unit printed on the equipment and stored in it."""

    name = forms.CharField(label=gettext_lazy("Name"), max_length=80)
    kind = forms.ChoiceField(label=gettext_lazy("Kind"), choices=KINDS.choices)
    unit = forms.ChoiceField(label=gettext_lazy("Loads are printed in"), choices=LoadUnit.choices, initial="kg")
    bar = forms.FloatField(
        label=gettext_lazy("Bar alone"),
        required=False,
        min_value=0,
        max_value=1000,
        help_text=gettext_lazy("0 for a machine whose arms are not counted."),
    )
    pairs = PairsField(
        label=gettext_lazy("Plates"),
        required=False,
        help_text=gettext_lazy("One plate a line with its number of pairs: 20 x 2."),
    )
    values = LoadsField(
        label=gettext_lazy("The loads, one by one"),
        required=False,
        max_length=2000,
        help_text=gettext_lazy("For example 2, 4, 6, 8, 10, 12.5, 15. Leave empty if they rise in equal steps."),
    )
    low = forms.FloatField(label=gettext_lazy("Lightest"), required=False, min_value=0, max_value=2000)
    high = forms.FloatField(label=gettext_lazy("Heaviest"), required=False, min_value=0, max_value=2000)
    step = forms.FloatField(label=gettext_lazy("Step"), required=False, min_value=0.05, max_value=500)
    add_ons = LoadsField(
        label=gettext_lazy("Small weights beside the stack"),
        required=False,
        max_length=200,
        help_text=gettext_lazy("For example 1.25, 2.5. Each may be used once, on any pin."),
    )

    def __init__(self, *args: Any, instance: Equipment | None = None, **kwargs: Any) -> None:
        if instance:
            kwargs["initial"] = initial_of(instance)
        super().__init__(*args, label_suffix="", **kwargs)

    @property
    def steps(self) -> list[forms.BoundField]:
        return [self[name] for name in ("low", "high", "step")]

    def clean(self) -> dict[str, Any]:
        values = super().clean()
        kind = values.get("kind")
        if not kind or any(name in self.errors for name in PARTS[kind]):
            return values
        values["ladder"] = self._ladder(kind, values)
        if values["ladder"] is None:
            return values
        try:
            ladder_from_dict(values["ladder"])
        except ValueError as error:
            self.add_error(PARTS[kind][0], str(error))
        return values

    def _ladder(self, kind: str, values: dict[str, Any]) -> dict[str, Any] | None:
        """Build what is stored, or say beside the field what is missing and return None."""
        unit = {"unit": values["unit"]} if values.get("unit") == "lb" else {}
        if kind == KINDS.NONE:
            return {"kind": "none"}
        if kind == KINDS.PLATES:
            if values["bar"] is None:
                self.add_error("bar", _("Say what the bar weighs; 0 if it is not counted."))
                return None
            return {"kind": "plates", "bar": _whole(values["bar"]), "pairs": values["pairs"]} | unit
        stacked = kind in (KINDS.STACK, KINDS.ASSISTED)
        extra = {"add_ons": values["add_ons"]} | unit if stacked else unit
        if values["values"]:
            listed = (
                {"kind": "stack", "pins": values["values"]}
                if stacked
                else {"kind": "listed", "values": values["values"]}
            )
            return listed | extra
        missing = [name for name in ("low", "high", "step") if values[name] is None]
        if kind == KINDS.BODY and len(missing) == 3:
            return {"kind": "none"}  # nothing is ever added to the body
        if len(missing) == 3:
            self.add_error("values", _("List the loads, or give the lightest, the heaviest and the step."))
        for name in missing if len(missing) < 3 else []:
            self.add_error(name, _("Needed, unless the loads are listed one by one."))
        if missing:
            return None
        low, high, step = (_whole(values[name]) for name in ("low", "high", "step"))
        return {"kind": "stack" if stacked else "fixed", "min": low, "max": high, "step": step} | extra


def _whole(value: float) -> float | int:
    return int(value) if value == int(value) else value


def initial_of(row: Equipment) -> dict[str, Any]:
    """Return the fields as they were typed for a stored ladder."""
    ladder = row.ladder
    return {
        "name": row.name,
        "kind": row.kind,
        "unit": ladder.get("unit", "kg"),
        "bar": ladder.get("bar"),
        "pairs": pairs_text(ladder.get("pairs", [])),
        "values": loads_text(ladder.get("values") or ladder.get("pins") or []),
        "low": ladder.get("min"),
        "high": ladder.get("max"),
        "step": ladder.get("step"),
        "add_ons": loads_text(ladder.get("add_ons", [])),
    }
