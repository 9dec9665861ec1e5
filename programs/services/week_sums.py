"""A written week in sums: by muscle group, head and day. Adding them up is cheap, so that many changes can be tried.

The sums are those of `periodization.dose.weekly_volume`: a set's share for a group is its largest credit there, set by
set, so shares can be worked out once for each exercise.
"""

from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from periodization.dose import DEFAULT_RIR_LIMIT, roll_up
from periodization.spacing import PlannedDay, short_gaps
from programs.document import Day, Week
from programs.services.tally import day_minutes
from programs.services.tally_facts import Anatomy, ExerciseFacts

K = TypeVar("K", bound=Hashable)
# Group, first and second weekday, hours between them.
Gap = tuple[str, int, int, int]


@dataclass(frozen=True, slots=True)
class Shares:
    """What one set of an exercise counts for groups, heads and (`long`) groups of which it loads a head while long."""

    groups: Mapping[str, float]
    heads: Mapping[str, float]
    long: Mapping[str, float]


@dataclass(frozen=True)
class DaySums:
    """What a day's hard sets add up to. `counted` are (shares, exercise, sets) in order, those without shares left out:
    sets that may end further from failure than the limit are no hard sets."""

    counted: Sequence[tuple[Shares, int, int]]
    sets: int
    minutes: float

    @cached_property
    def groups(self) -> Mapping[str, float]:
        return _weighed([(shares.groups, sets) for shares, _exercise, sets in self.counted])

    @cached_property
    def heads(self) -> Mapping[str, float]:
        return _weighed([(shares.heads, sets) for shares, _exercise, sets in self.counted])

    @cached_property
    def long(self) -> Mapping[str, float]:
        return _weighed([(shares.long, sets) for shares, _exercise, sets in self.counted])

    @cached_property
    def exercises(self) -> Mapping[int, float]:
        return _added([{exercise: sets} for _shares, exercise, sets in self.counted])


@dataclass(frozen=True)
class WeekSums:
    """What a week's days add up to, each sum worked out when it is first asked for: who tries a hundred weeks looks at
    a few of them. `parts` are the days in order, under `keys`."""

    parts: Sequence[DaySums]
    keys: Sequence[str]
    weekdays: Sequence[int]

    @cached_property
    def groups(self) -> Mapping[str, float]:
        """Return fractional hard sets by group."""
        return _added([day.groups for day in self.parts])

    @cached_property
    def heads(self) -> Mapping[str, float]:
        """Return fractional hard sets by head."""
        return _added([day.heads for day in self.parts])

    @cached_property
    def long(self) -> Mapping[str, float]:
        """Return the groups' sets that load a head while it is long."""
        return _added([day.long for day in self.parts])

    @cached_property
    def exercises(self) -> Mapping[int, float]:
        """Return hard sets by exercise."""
        return _added([day.exercises for day in self.parts])

    @cached_property
    def days(self) -> Sequence[Mapping[str, float]]:
        """Return fractional hard sets by group for each day in order."""
        return [day.groups for day in self.parts]

    @cached_property
    def sets(self) -> Mapping[str, int]:
        """Return hard sets by the day's key."""
        return {key: day.sets for key, day in zip(self.keys, self.parts, strict=True)}

    @cached_property
    def minutes(self) -> Mapping[str, float]:
        """Return minutes by the day's key."""
        return {key: day.minutes for key, day in zip(self.keys, self.parts, strict=True)}

    @cached_property
    def gaps(self) -> Sequence[Gap]:
        """Return (group, first weekday, second weekday, hours) under the minimum."""
        return gaps_of(self.days, self.weekdays)


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


def day_sums(day: Day, facts: Mapping[int, ExerciseFacts], shares: Mapping[int, Shares]) -> DaySums:
    """Add a day up."""
    hard = [slot for slot in day.slots if slot.rir[1] <= DEFAULT_RIR_LIMIT]
    counted = [(shares[slot.exercise], slot.exercise, slot.sets[1]) for slot in hard if slot.exercise in shares]
    return DaySums(counted, sum(slot.sets[1] for slot in hard), day_minutes(day, facts))


def week_sums(
    week: Week,
    facts: Mapping[int, ExerciseFacts],
    shares: Mapping[int, Shares],
    weekdays: Sequence[int],
    before: tuple[Week, WeekSums] | None = None,
) -> WeekSums:
    """Add a week up. `before` is the week it was changed from, with its sums: a change costs only the days it makes
    anew."""
    known = {id(day): sums for day, sums in zip(before[0].days, before[1].parts, strict=True)} if before else {}
    days = [known.get(id(day)) or day_sums(day, facts, shares) for day in week.days]
    return WeekSums(days, [day.key for day in week.days], weekdays)


def _added(parts: Iterable[Mapping[K, float]]) -> dict[K, float]:
    sums: dict[K, float] = {}
    for part in parts:
        for name, amount in part.items():
            sums[name] = sums.get(name, 0) + amount
    return sums


def _weighed(parts: Iterable[tuple[Mapping[str, float], int]]) -> dict[str, float]:
    sums: dict[str, float] = {}
    for part, sets in parts:
        for name, share in part.items():
            sums[name] = sums.get(name, 0) + share * sets
    return sums


def gaps_of(days: Sequence[Mapping[str, float]], weekdays: Sequence[int]) -> list[Gap]:
    return short_gaps(PlannedDay(weekday, day) for weekday, day in zip(weekdays, days, strict=False))
