"""What a week as written amounts to: sets for each muscle against its range, time for each day, gaps between days."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from periodization.dose import CountedSet, planned_sets, weekly_volume
from periodization.duration import SlotTime, session_minutes
from periodization.spacing import GapWarning, PlannedDay, gap_warnings
from periodization.targets import TargetRange, standing
from programs.document import Day, Slot, Week
from programs.services.slot_time import slot_time
from programs.services.tally_facts import Anatomy, ExerciseFacts


@dataclass(frozen=True, slots=True)
class HeadRow:
    name: str
    sets: float


@dataclass(frozen=True, slots=True)
class GroupRow:
    """Fractional hard sets of one group a week; `standing` is under, inside or over the range."""

    slug: str
    name: str
    sets: float
    target: TargetRange
    standing: str
    heads: tuple[HeadRow, ...]


@dataclass(frozen=True, slots=True)
class WeekTally:
    """`trained` are the groups that get sets, `untrained` the others; `other_heads` get sets but have no target.
    `minutes` are by the day's key. `unmapped` are exercises that credit no muscle."""

    trained: tuple[GroupRow, ...]
    untrained: tuple[GroupRow, ...]
    other_heads: tuple[HeadRow, ...]
    hard_sets: float
    easy_sets: float
    minutes: Mapping[str, float]
    gaps: tuple[GapWarning, ...]
    unmapped: tuple[str, ...]


def group_and_head_sets(
    sets: Iterable[CountedSet], credits: Mapping[str, Mapping[str, float]], anatomy: Anatomy
) -> tuple[dict[str, float], dict[str, float]]:
    """Return fractional hard sets by group and by head.

    A group stands where the arithmetic says muscle: one muscle can lie in several groups (the deltoid's three parts),
    and a group can hold several muscles, yet a set is one set at most for a group.
    """
    volume = weekly_volume(sets, credits, anatomy.group_of_head, {})
    groups = {slug: amount for slug, amount in volume.by_muscle.items() if slug in anatomy.groups}
    return groups, dict(volume.by_head)


def tally_week(
    week: Week,
    facts: Mapping[int, ExerciseFacts],
    anatomy: Anatomy,
    targets: Mapping[str, TargetRange],
    weekdays: Sequence[int],
    count_easy: bool = False,
) -> WeekTally:
    """Count a week as written. `weekdays` holds one weekday (Monday 0) for each day; a range of sets counts its upper
    number, and effort is judged by the most reserve that the prescription allows. With `count_easy` every set counts:
    a deload is far from failure on purpose, and would seem to be no training at all."""
    credits = {str(pk): fact.credits for pk, fact in facts.items()}
    counted = [one for day in week.days for slot in day.slots for one in _sets(slot, count_easy)]
    volume = weekly_volume(counted, credits, anatomy.group_of_head, {})
    groups, heads = group_and_head_sets(counted, credits, anatomy)
    rows = [_group_row(slug, groups.get(slug, 0.0), heads, anatomy, targets[slug]) for slug in anatomy.groups]
    exposures = [
        PlannedDay(weekday, group_and_head_sets([s for slot in day.slots for s in _sets(slot)], credits, anatomy)[0])
        for day, weekday in zip(week.days, weekdays, strict=False)
    ]
    return WeekTally(
        trained=tuple(row for row in rows if row.sets),
        untrained=tuple(row for row in rows if not row.sets),
        other_heads=tuple(
            HeadRow(anatomy.head_names[slug], amount)
            for slug, amount in heads.items()
            if slug not in anatomy.group_of_head and slug in anatomy.head_names
        ),
        hard_sets=volume.hard_sets,
        easy_sets=volume.easy_sets,
        minutes={day.key: day_minutes(day, facts) for day in week.days},
        gaps=tuple(gap_warnings(exposures)),
        unmapped=tuple(facts[int(pk)].name for pk in volume.unmapped if int(pk) in facts),
    )


def day_minutes(day: Day, facts: Mapping[int, ExerciseFacts]) -> float:
    """Estimate the minutes of a training day, from the warm-up to the last repetition."""
    return session_minutes([_time(slot, facts.get(slot.exercise)) for slot in day.slots])


def _sets(slot: Slot, count_easy: bool = False) -> tuple[CountedSet, ...]:
    return planned_sets(str(slot.exercise), slot.sets[1], 0 if count_easy else slot.rir[1])


def _group_row(slug: str, sets: float, heads: Mapping[str, float], anatomy: Anatomy, target: TargetRange) -> GroupRow:
    own = tuple(
        HeadRow(anatomy.head_names[head], heads[head])
        for head, group in anatomy.group_of_head.items()
        if group == slug and head in heads
    )
    return GroupRow(slug, anatomy.groups[slug], sets, target, standing(sets, target), own)


def _time(slot: Slot, fact: ExerciseFacts | None) -> SlotTime:
    return slot_time(
        sets=slot.sets[1],
        reps=slot.reps,
        rest_s=slot.rest_s,
        tempo=slot.tempo,
        pair=slot.pair,
        one_sided=bool(fact and fact.one_sided),
        rep_s=fact.rep_s if fact else 4,
        setup_s=fact.setup_s if fact else 60,
    )
