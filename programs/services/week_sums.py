"""A written week in sums: by muscle group, head and day. Adding them up is cheap, so that many changes can be tried.

The sums are those of `periodization.dose.weekly_volume`: a set's share for a group is its largest credit there, set by
set, so shares can be worked out once for each exercise.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from periodization.dose import DEFAULT_RIR_LIMIT, roll_up
from periodization.spacing import PlannedDay, short_gaps
from programs.document import Day, Week
from programs.services.tally import day_minutes
from programs.services.tally_facts import Anatomy, ExerciseFacts

# Group, first and second weekday, hours between them.
Gap = tuple[str, int, int, int]


@dataclass(frozen=True, slots=True)
class Shares:
    """What one set of an exercise counts for groups, heads and (`long`) groups of which it loads a head while long."""

    groups: Mapping[str, float]
    heads: Mapping[str, float]
    long: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class WeekSums:
    """Fractional hard sets; `days` by group for each day in order, `exercises` hard sets by exercise, `sets`
    (hard sets) and `minutes` by the day's key.
    `gaps` are (group, first weekday, second weekday, hours) under the minimum."""

    groups: Mapping[str, float]
    heads: Mapping[str, float]
    long: Mapping[str, float]
    days: Sequence[Mapping[str, float]]
    exercises: Mapping[int, float]
    sets: Mapping[str, int]
    minutes: Mapping[str, float]
    gaps: Sequence[Gap]


def shares_of(facts: Iterable[ExerciseFacts], anatomy: Anatomy) -> dict[int, Shares]:
    """Return the shares of exercises by id."""
    result = {}
    for fact in facts:
        grouped = {head: credit for head, credit in fact.credits.items() if head in anatomy.group_of_head}
        groups = roll_up(grouped, anatomy.group_of_head)
        long = roll_up({head: c for head, c in grouped.items() if head in fact.long}, anatomy.group_of_head)
        # An exercise is loaded long for a group where a head that it trains most there is.
        result[fact.pk] = Shares(groups, fact.credits, {g: c for g, c in long.items() if c == groups[g]})
    return result


@dataclass(frozen=True, slots=True)
class DaySums:
    groups: Mapping[str, float]
    heads: Mapping[str, float]
    long: Mapping[str, float]
    exercises: Mapping[int, int]
    sets: int
    minutes: float


def day_sums(day: Day, facts: Mapping[int, ExerciseFacts], shares: Mapping[int, Shares]) -> DaySums:
    """Add a day up. Sets that may end further from failure than the limit are no hard sets."""
    groups, heads, long = (defaultdict[str, float](float) for _ in range(3))
    exercises: dict[int, int] = defaultdict(int)
    sets = 0
    for slot in day.slots:
        if slot.rir[1] > DEFAULT_RIR_LIMIT:
            continue
        count = slot.sets[1]
        sets += count
        share = shares.get(slot.exercise)
        if share is None:
            continue
        exercises[slot.exercise] += count
        for kind, sums in ((share.groups, groups), (share.heads, heads), (share.long, long)):
            for name, part in kind.items():
                sums[name] += part * count
    return DaySums(groups, heads, long, exercises, sets, day_minutes(day, facts))


def week_sums(
    week: Week,
    facts: Mapping[int, ExerciseFacts],
    shares: Mapping[int, Shares],
    weekdays: Sequence[int],
    known: dict[Day, DaySums] | None = None,
) -> WeekSums:
    """Add a week up. `known` keeps the sums of days between calls, so that a change costs only the days it touches."""
    known = {} if known is None else known
    groups, heads, long, exercises = (defaultdict[Any, float](float) for _ in range(4))
    days = []
    for day in week.days:
        found = known.get(day)
        if found is None:
            found = known[day] = day_sums(day, facts, shares)
        days.append(found)
        kinds = ((found.groups, groups), (found.heads, heads), (found.long, long), (found.exercises, exercises))
        for kind, sums in kinds:
            for name, amount in kind.items():
                sums[name] += amount
    by_day = [one.groups for one in days]
    keys = [day.key for day in week.days]
    return WeekSums(
        groups,
        heads,
        long,
        by_day,
        exercises,
        {key: one.sets for key, one in zip(keys, days, strict=True)},
        {key: one.minutes for key, one in zip(keys, days, strict=True)},
        gaps_of(by_day, weekdays),
    )


def gaps_of(days: Sequence[Mapping[str, float]], weekdays: Sequence[int]) -> list[Gap]:
    return short_gaps(PlannedDay(weekday, day) for weekday, day in zip(weekdays, days, strict=False))
