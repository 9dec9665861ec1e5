"""The whole form of a draft: week, targets, exercises and weights, read and checked together."""

from dataclasses import dataclass
from typing import Any

from django.http import QueryDict

from programs.forms.draft_picks import LISTS, Pick, check_picks, read_pick
from programs.forms.draft_targets import TargetsForm
from programs.forms.draft_week import WeekForm
from programs.forms.draft_weights import WeightsForm
from programs.models import Equipment, JointAction, Limit, MuscleGroup
from programs.services.draft_ask import Ask


@dataclass(slots=True)
class DraftForms:
    week: WeekForm
    targets: TargetsForm
    weights: WeightsForm
    picks: list[Pick]

    def is_valid(self) -> bool:
        """Check everything, so that all that is wrong is said at once."""
        valid = [form.is_valid() for form in (self.week, self.targets, self.weights)]
        if days := self.week.days():
            self.targets.check_exercises(len(days))
        check_picks(self.picks)
        return all(valid) and not self.targets.errors and not any(pick.errors for pick in self.picks)

    def ask(self) -> Ask:
        week, (include, avoid) = self.week.cleaned_data, self.picks
        return Ask(
            status=week["status"],
            days=self.week.days(),
            targets=self.targets.targets(week["status"]),
            equipment=tuple(week["equipment"]) if week["equipment_choice"] == "these" else None,
            include=include.ids(),
            avoid=avoid.ids(),
            limits=tuple(week["limits"]),
            actions=tuple(week["actions"]),
            pairs=week["pairs"],
            compound=self.week.dose("compound"),
            single=self.week.dose("single"),
            sets=week["sets"],
            session_cap=float(week["session_cap"]),
            slots_per_day=week["slots_per_day"],
            spacing_must=week["spacing_must"],
            weights=self.weights.weights(),
            seconds=week["seconds"],
            seed=week["seed"],
        )

    @property
    def any_errors(self) -> bool:
        return any(form.errors for form in (self.week, self.targets, self.weights)) or any(
            pick.errors for pick in self.picks
        )


def draft_forms(
    user: Any, groups: list[MuscleGroup], initial: dict[str, Any], data: QueryDict | None = None, *, bound: bool = True
) -> DraftForms:
    """Return the forms: bound to `data`, or (not `bound`) only showing it, as while an exercise is looked for."""
    status = (data.get("status", "") if data is not None else initial["status"]) or "intermediate"
    shown = _as_initial(data) if data is not None and not bound else initial
    posted = data if bound else None
    pieces = Equipment.objects.visible_to(user).filter(archived_at=None)
    return DraftForms(
        WeekForm(
            posted, initial=shown, equipment=pieces, limits=Limit.objects.all(), actions=JointAction.objects.all()
        ),
        TargetsForm(posted, initial=shown, groups=groups, status=status),
        WeightsForm(posted, initial=shown),
        [_pick(user, name, shown, data) for name in LISTS],
    )


def _pick(user: Any, name: str, shown: dict[str, Any], data: QueryDict | None) -> Pick:
    if data is None:
        return read_pick(user, name, shown.get(name, ()))
    return read_pick(user, name, data.getlist(name), data.get(f"{name}-q", ""))


def _as_initial(data: QueryDict) -> dict[str, Any]:
    lists = {"equipment", "limits", "actions", *LISTS}
    return {key: data.getlist(key) if key in lists else data[key] for key in data}
