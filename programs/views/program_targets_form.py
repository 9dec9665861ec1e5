"""The form of a client's targets: one row a muscle group."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from accounts.models.client import TrainingStatus
from periodization.rules import Reason
from periodization.targets import Opinion, TargetRange, opinions_on, spread_on
from programs.forms.ranges import check_ranges
from programs.models import MuscleGroup
from programs.services.targets import PRIORITIES, priority_for, target_ranges_for
from programs.views.program_forms import PlainForm

MOST_SETS = 60


@dataclass(frozen=True, slots=True)
class Row:
    """A group with its range now, what publications say of it, and its fields."""

    group: MuscleGroup
    now: TargetRange
    rank: str
    spread: Reason
    opinions: tuple[Opinion, ...]
    priority: forms.BoundField
    floor: forms.BoundField
    ceiling: forms.BoundField


class SetsField(forms.FloatField):
    """A number of sets; a comma is understood as the decimal sign."""

    def to_python(self, value: Any) -> float | None:
        return super().to_python(value.replace(",", ".") if isinstance(value, str) else value)


class TargetsForm(PlainForm):
    training_status = forms.ChoiceField(label=_("Training status"), choices=TrainingStatus.choices)

    def __init__(self, *args: Any, client: Client, groups: list[MuscleGroup], **kwargs: Any) -> None:
        super().__init__(*args, initial={"training_status": client.training_status}, **kwargs)
        self.client, self.groups = client, groups
        self.now = target_ranges_for(client, [group.slug for group in groups])
        for group in groups:
            own = client.target_overrides.get(group.slug, [None, None])
            names = {"group": group.name}
            self.fields[f"priority-{group.slug}"] = forms.ChoiceField(
                label=_("Priority of %(group)s") % names,
                choices=PRIORITIES,
                initial=priority_for(client, group.slug),
            )
            for end, value, label in (
                ("floor", own[0], _("At least, %(group)s")),
                ("ceiling", own[1], _("At most, %(group)s")),
            ):
                self.fields[f"{end}-{group.slug}"] = SetsField(
                    label=label % names,
                    required=False,
                    initial=value if value is None or value % 1 else int(value),
                    min_value=0,
                    max_value=MOST_SETS,
                    widget=forms.TextInput(attrs={"inputmode": "decimal"}),
                )

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        check_ranges(self, values, self.groups)
        return values

    def rows(self) -> Iterator[Row]:
        for group in self.groups:
            yield Row(
                group,
                self.now[group.slug],
                str(dict(PRIORITIES)[priority_for(self.client, group.slug)]),
                spread_on(group.slug),
                opinions_on(group.slug),
                *(self[f"{name}-{group.slug}"] for name in ("priority", "floor", "ceiling")),
            )

    def priorities(self) -> dict[str, str]:
        return {group.slug: self.cleaned_data[f"priority-{group.slug}"] for group in self.groups}

    def overrides(self) -> dict[str, tuple[float, float]]:
        both = {
            g.slug: (self.cleaned_data[f"floor-{g.slug}"], self.cleaned_data[f"ceiling-{g.slug}"]) for g in self.groups
        }
        return {slug: ends for slug, ends in both.items() if ends[0] is not None}
