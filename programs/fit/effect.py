"""What a client's differences make of the program's week."""

from collections.abc import Mapping
from dataclasses import dataclass

from periodization.dose import planned_sets
from periodization.targets import TargetRange, standing
from programs.document import Document, Week
from programs.fit.model import ExerciseFit
from programs.services.tally import day_minutes, group_and_head_sets
from programs.services.tally_facts import Anatomy

# A change under this is rounding.
LEAST_CHANGE = 0.25


@dataclass(frozen=True, slots=True)
class GroupEffect:
    """Weekly hard sets of one muscle group before and after, against the client's range."""

    slug: str
    name: str
    before: float
    after: float
    target: TargetRange
    standing: str

    @property
    def leaves(self) -> bool:
        """Say whether it is outside its range now and was not there, on that side, as written."""
        return self.standing != "inside" and standing(self.before, self.target) != self.standing


@dataclass(frozen=True, slots=True)
class Effect:
    """`minutes` are of the longest day of the week, before and after."""

    groups: tuple[GroupEffect, ...]
    minutes: tuple[float, float]

    @property
    def outside(self) -> list[GroupEffect]:
        """The groups that change and are then outside the client's range: what a coach looks at first."""
        return [one for one in self.groups if one.standing != "inside"]

    @property
    def inside(self) -> list[GroupEffect]:
        return [one for one in self.groups if one.standing == "inside"]


def fullest_week(document: Document) -> Week | None:
    """Return the week with the most sets that is no deload (of several the first); None for an empty program."""
    weeks = [week for block in document.blocks for week in block.weeks if not week.deload]
    weeks = weeks or [week for block in document.blocks for week in block.weeks]
    return max(weeks, key=lambda week: sum(slot.sets[1] for day in week.days for slot in day.slots), default=None)


def week_volume(week: Week, facts: Mapping[int, ExerciseFit], anatomy: Anatomy) -> dict[str, float]:
    """Return the week's fractional hard sets by group."""
    sets = [
        one
        for day in week.days
        for slot in day.slots
        for one in planned_sets(str(slot.exercise), slot.sets[1], slot.rir[1])
    ]
    named = {slot.exercise for day in week.days for slot in day.slots}
    return group_and_head_sets(sets, {str(pk): facts[pk].credits for pk in named}, anatomy)[0]


def longest_day(week: Week, facts: Mapping[int, ExerciseFit]) -> float:
    return max((day_minutes(day, facts) for day in week.days if day.slots), default=0.0)  # type: ignore[arg-type]


def effect(
    before: Mapping[str, float],
    minutes: float,
    week: Week,
    facts: Mapping[int, ExerciseFit],
    anatomy: Anatomy,
    targets: Mapping[str, TargetRange],
) -> Effect:
    """Compare the client's `week` with the program's (`before`, `minutes`); only groups that change are named."""
    after = week_volume(week, facts, anatomy)
    groups = [
        GroupEffect(
            slug,
            name,
            before.get(slug, 0.0),
            after.get(slug, 0.0),
            targets[slug],
            standing(after.get(slug, 0.0), targets[slug]),
        )
        for slug, name in anatomy.groups.items()
        if abs(before.get(slug, 0.0) - after.get(slug, 0.0)) >= LEAST_CHANGE
    ]
    return Effect(tuple(groups), (minutes, longest_day(week, facts)))


def week_named(document: Document, key: str) -> Week:
    """Return the week with this key; ValueError when there is none."""
    for block in document.blocks:
        for week in block.weeks:
            if week.key == key:
                return week
    raise ValueError(f"no week {key}")
