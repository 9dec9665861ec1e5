"""What a coach says to one client's proposals. The fields follow from the proposals; a required one has no tick."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django import forms
from django.utils.translation import gettext as _

from periodization.rules import Reason
from periodization.units import from_kg, to_kg
from programs.fit.model import ExerciseFit, Option, Proposal
from programs.services.adaptation_words import what_of

# Numbers that are whole; a starting load is not.
WHOLE = ("scale", "rir", "careful")
LABELS = {"scale": "%", "rir": "RIR", "careful": "RIR"}


@dataclass(frozen=True, slots=True)
class ChoiceLine:
    """The fields of one proposal; None where it has none."""

    proposal: Proposal
    what: Reason
    accept: forms.BoundField | None
    to: forms.BoundField | None
    number: forms.BoundField | None


class ChoiceForm(forms.Form):
    def __init__(
        self,
        *args: Any,
        proposals: tuple[Proposal, ...],
        exercises: Mapping[int, ExerciseFit],
        unit: str,
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, label_suffix="", **kwargs)
        self.proposals, self.unit = proposals, unit
        for one in proposals:
            if not one.required:
                self.fields[f"accept-{one.id}"] = forms.BooleanField(
                    label=_("do it"), required=False, initial=one.accepted
                )
            if one.options or one.id.startswith(("swap:", "decided:")):
                self.fields[f"to-{one.id}"] = forms.TypedChoiceField(
                    label=_("instead"), choices=_choices(one, exercises), coerce=int, initial=one.change.to or 0
                )
            if one.number is not None:
                self.fields[f"number-{one.id}"] = self._number(one)

    def _number(self, one: Proposal) -> forms.Field:
        low, high = one.bounds or (0, 0)
        if one.change.kind in WHOLE:
            widget = forms.NumberInput(attrs={"inputmode": "numeric"})
            return forms.IntegerField(
                label=LABELS[one.change.kind],
                min_value=int(low),
                max_value=int(high),
                initial=int(one.number or 0),
                widget=widget,
            )
        # As loads are written everywhere: a stack's 31.25 kg is no 31.2, and a pound has one decimal at best. The upper
        # bound goes down to it: one that was rounded up would refuse nothing that is shown.
        unit, digits = ("lb", 1) if self.unit == "lb" else ("kg", 2)
        most = from_kg(high, unit)
        shown = round(from_kg(one.number or 0.0, unit), digits)
        return forms.FloatField(
            label=self.unit,
            min_value=0.5,
            max_value=int(most * 10**digits) / 10**digits,
            initial=f"{shown:g}",
            widget=forms.NumberInput(attrs={"inputmode": "decimal", "step": "any"}),
        )

    def lines(self) -> Iterator[ChoiceLine]:
        for one in self.proposals:
            bound = [self[name] if name in self.fields else None for name in _names(one)]
            yield ChoiceLine(one, what_of(one.change, _strings(one)), *bound)

    def choices(self, before: Mapping[str, Mapping[str, Any]]) -> dict[str, dict[str, Any]]:
        """Return what departs from the proposals, to be kept; `before` is what was kept until now."""
        found: dict[str, dict[str, Any]] = {}
        for one in self.proposals:
            kept = dict(before.get(one.id, {}))
            said: dict[str, Any] = {}
            accept, to, number = _names(one)
            if accept in self.fields and not self.cleaned_data[accept]:
                said["accept"] = False
            if to in self.fields:
                wanted = self.cleaned_data[to]
                if wanted != (one.change.to or 0) or "to" in kept:
                    said["to"] = wanted
            if number in self.fields and (self.has_changed_number(number) or "number" in kept):
                value = float(self.cleaned_data[number])
                said["number"] = (
                    value if one.change.kind in WHOLE else to_kg(value, "lb" if self.unit == "lb" else "kg")
                )
            if said:
                found[one.id] = said
        return found

    def has_changed_number(self, name: str) -> bool:
        return float(self.cleaned_data[name]) != float(self.fields[name].initial)


def _strings(one: Proposal) -> dict[str, Any]:
    return {"exercises": [str(pk) for pk in one.params.get("exercises", ())]}


def _names(one: Proposal) -> tuple[str, str, str]:
    return f"accept-{one.id}", f"to-{one.id}", f"number-{one.id}"


def _choices(one: Proposal, exercises: Mapping[int, ExerciseFit]) -> list[tuple[int, str]]:
    found = [(option.exercise, named(option, exercises)) for option in one.options]
    if one.change.kind == "one-side":
        return found
    return [*found, (0, _("leave it out"))]


def named(option: Option, exercises: Mapping[int, ExerciseFit]) -> str:
    """Return a substitute's name with what it loses, and that it is harder."""
    said = {"name": exercises[option.exercise].name, "heads": round(100 * option.heads)}
    said["long"] = round(100 * option.long)
    if option.within:
        return _("%(name)s (harder)") % said if option.harder else str(said["name"])
    if option.harder:
        return _("%(name)s (harder; keeps %(heads)s %% of the heads, %(long)s %% of what is long)") % said
    return _("%(name)s (keeps %(heads)s %% of the heads, %(long)s %% of what is long)") % said
