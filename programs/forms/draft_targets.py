"""The weekly ranges of a draft, one row a muscle group: priority, range, what of it is a must, exercises a day."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from periodization.targets import target_range
from programs.document.errors import EditError
from programs.document.ranges import read_range
from programs.forms.ranges import check_ranges
from programs.models import MuscleGroup
from programs.services import draft_bounds as bounds
from programs.services.draft_ask import AskedTarget, Range
from programs.services.targets import PRIORITIES
from programs.views.program_forms import PlainForm
from programs.views.program_targets_form import SetsField

LEFT_OUT = "out"
MUSTS = (
    ("floor_must", gettext_lazy("sets"), gettext_lazy("At least so many sets is a must: %(group)s")),
    ("heads_must", gettext_lazy("heads"), gettext_lazy("Every head is a must: %(group)s")),
    ("long_must", gettext_lazy("long"), gettext_lazy("An exercise that loads it long is a must: %(group)s")),
)


@dataclass(frozen=True, slots=True)
class Row:
    group: MuscleGroup
    priority: forms.BoundField
    floor: forms.BoundField
    ceiling: forms.BoundField
    musts: list[tuple[str, forms.BoundField]]
    exercises: forms.BoundField

    @property
    def errors(self) -> list[str]:
        fields = (self.priority, self.floor, self.ceiling, self.exercises)
        return [str(error) for field in fields for error in field.errors]


class TargetsForm(PlainForm):
    """Empty ranges are the usual ones for status and priority; a group that is left out is neither planned nor
    bounded."""

    def __init__(self, *args: Any, groups: list[MuscleGroup], status: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.groups = groups
        for group in groups:
            self._add_row(group, status)

    def _add_row(self, group: MuscleGroup, status: str) -> None:
        slug, names = group.slug, {"group": group.name}
        priority = self.data.get(f"priority-{slug}") or self.initial.get(f"priority-{slug}") or "normal"
        known = status in ("novice", "intermediate", "advanced") and priority in dict(PRIORITIES)
        usual = target_range(status, priority, slug) if known else None  # type: ignore[arg-type]
        self.fields[f"priority-{slug}"] = forms.ChoiceField(
            label=_("Priority of %(group)s") % names, choices=[*PRIORITIES, (LEFT_OUT, _("leave out"))]
        )
        for end, label in (("floor", _("At least, %(group)s")), ("ceiling", _("At most, %(group)s"))):
            shown = f"{getattr(usual, end):g}" if usual else ""
            self.fields[f"{end}-{slug}"] = SetsField(
                label=label % names,
                required=False,
                min_value=bounds.SETS_A_WEEK[0],
                max_value=bounds.SETS_A_WEEK[1],
                widget=forms.TextInput(attrs={"inputmode": "decimal", "placeholder": shown, "autocomplete": "off"}),
            )
        for name, _short, label in MUSTS:
            self.fields[f"{name}-{slug}"] = forms.BooleanField(label=label % names, required=False)
        self.fields[f"exercises-{slug}"] = forms.CharField(
            label=_("Exercises a day, %(group)s") % names,
            required=False,
            max_length=60,
            widget=forms.TextInput(attrs={"autocomplete": "off"}),
        )

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        check_ranges(self, values, self.groups)
        if not self.errors and all(values[f"priority-{group.slug}"] == LEFT_OUT for group in self.groups):
            self.add_error(None, _("Every muscle group is left out: there is nothing to draft for."))
        return values

    def check_exercises(self, days: int) -> None:
        """Hold the exercises a day against the number of days; adds errors beside their fields."""
        for group in self.groups:
            name = f"exercises-{group.slug}"
            if self.has_error(name):
                continue
            try:
                self.cleaned_data[name] = _counts(self.cleaned_data.get(name, ""), days)
            except EditError as error:
                self.add_error(name, str(error))

    def targets(self, status: str) -> dict[str, AskedTarget]:
        found = {}
        for group in self.groups:
            slug, values = group.slug, self.cleaned_data
            priority = values[f"priority-{slug}"]
            if priority == LEFT_OUT:
                continue
            floor, ceiling = values[f"floor-{slug}"], values[f"ceiling-{slug}"]
            if floor is None:
                usual = target_range(status, priority, slug)  # type: ignore[arg-type]
                floor, ceiling = usual.floor, usual.ceiling
            musts = {name: values[f"{name}-{slug}"] for name, _short, _label in MUSTS}
            found[slug] = AskedTarget(floor, ceiling, priority, **musts, exercises=values[f"exercises-{slug}"])
        return found

    def rows(self) -> Iterator[Row]:
        for group in self.groups:
            slug = group.slug
            musts = [(str(short), self[f"{name}-{slug}"]) for name, short, _label in MUSTS]
            ends = (self[f"{name}-{slug}"] for name in ("priority", "floor", "ceiling"))
            yield Row(group, *ends, musts, self[f"exercises-{slug}"])


def _counts(text: str, days: int) -> tuple[Range, ...]:
    """Read `3`, `3, 2` or `2-3, 1`: a number or range for each day, or one for all."""
    parts = [part for part in text.replace(";", ",").split(",") if part.strip()]
    if not parts:
        return ()
    if len(parts) not in (1, days):
        raise EditError(
            _("Write one number for all days, or %(days)s with commas between them, one for each day.") % {"days": days}
        )
    found = [read_range(part, bounds.EXERCISES_OF_GROUP, "", _("Exercises a day")) for part in parts]
    return tuple(found * days if len(found) == 1 else found)
