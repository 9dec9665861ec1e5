"""How a week's sets are balanced: over muscles, the heads of a group, muscle length, and the days."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from periodization.dose import roll_up
from periodization.spacing import DAYS_PER_WEEK, HOURS_PER_DAY, MINIMUM_SETS
from programs.services.week_view import WeekDesk


@dataclass(frozen=True, slots=True)
class HeadShare:
    """`per_cent` of the group's most trained head."""

    name: str
    sets: float
    per_cent: int


@dataclass(frozen=True, slots=True)
class GroupBalance:
    """`long_per_cent` of the group's sets load it while it is long; `hours` lie between its exposures through the week
    (empty when it is trained on one day only)."""

    name: str
    sets: float
    heads: Sequence[HeadShare]
    long_per_cent: int
    hours: Sequence[int]


@dataclass(frozen=True, slots=True)
class Balance:
    groups: Sequence[GroupBalance]
    muscles: Sequence[tuple[str, float]]


def balance_of(desk: WeekDesk) -> Balance:
    """Work out the balance of a week. Heads and muscles without a set are listed where their group has some."""
    heads: dict[str, list[str]] = defaultdict(list)
    for head, group in desk.anatomy.group_of_head.items():
        heads[group].append(head)
    groups = [_group(desk, group, heads[group]) for group in desk.anatomy.groups if desk.sums.groups.get(group)]
    return Balance(groups, _muscles(desk))


def _group(desk: WeekDesk, group: str, heads: Sequence[str]) -> GroupBalance:
    amounts = {head: desk.sums.heads.get(head, 0) for head in heads}
    most = max(amounts.values(), default=0)
    sets = desk.sums.groups[group]
    used = sorted(
        weekday
        for weekday, day in zip(desk.weekdays, desk.sums.days, strict=False)
        if day.get(group, 0) >= MINIMUM_SETS
    )
    following = [*used[1:], *(day + DAYS_PER_WEEK for day in used[:1])]
    hours = [(second - first) * HOURS_PER_DAY for first, second in zip(used, following, strict=True)]
    return GroupBalance(
        name=desk.anatomy.groups[group],
        sets=sets,
        heads=[
            HeadShare(desk.anatomy.head_names[head], amount, round(100 * amount / most) if most else 0)
            for head, amount in amounts.items()
        ],
        long_per_cent=round(100 * desk.sums.long.get(group, 0) / sets),
        hours=hours if len(used) > 1 else [],
    )


def _muscles(desk: WeekDesk) -> list[tuple[str, float]]:
    """Add up sets by muscle: the largest credit among its heads, set by set."""
    sums: dict[str, float] = defaultdict(float)
    for exercise, sets in desk.sums.exercises.items():
        for muscle, share in roll_up(desk.facts[exercise].credits, desk.anatomy.muscle_of_head).items():
            sums[muscle] += share * sets
    order = dict.fromkeys(desk.anatomy.muscle_of_head.values())
    return [(desk.anatomy.muscle_names[muscle], sums[muscle]) for muscle in order if sums.get(muscle)]
