"""The weeks of a block side by side: each slot's row through the weeks, volume against the range, minutes a day."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from periodization.duration import whole_minutes
from periodization.targets import TargetRange
from programs.document import Block, Slot, Week
from programs.services.tally import WeekTally, tally_week
from programs.services.tally_facts import Anatomy, ExerciseFacts


@dataclass(frozen=True, slots=True)
class SlotCell:
    """What one week prescribes. `other` names the exercise where it is not the row's, `whole` says that the repetitions
    are not the row's either, so that the prescription is written out."""

    slot: Slot
    other: str
    whole: bool


@dataclass(slots=True)
class SlotRow:
    exercise: int
    name: str
    reps: tuple[int, int]
    cells: list[SlotCell | None]


@dataclass(slots=True)
class DayRows:
    """One training day through the weeks; `minutes` are None where a week does not have it."""

    name: str
    minutes: list[int | None]
    rows: dict[object, SlotRow] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class VolumeCell:
    """`standing` is under, inside or over; empty in a deload, which is not judged by the range."""

    sets: float
    standing: str


@dataclass(frozen=True, slots=True)
class VolumeRow:
    name: str
    target: TargetRange
    cells: tuple[VolumeCell, ...]


@dataclass(frozen=True, slots=True)
class Outside:
    """A muscle group whose sets leave its range in some week; (week from 1, cell) where they are under or over."""

    row: VolumeRow
    under: Sequence[tuple[int, VolumeCell]]
    over: Sequence[tuple[int, VolumeCell]]


@dataclass(frozen=True, slots=True)
class WeeksTable:
    weeks: Sequence[Week]
    days: Sequence[DayRows]
    volumes: Sequence[VolumeRow]
    outside: Sequence[Outside]


def weeks_table(
    block: Block,
    facts: Mapping[int, ExerciseFacts],
    anatomy: Anatomy,
    targets: Mapping[str, TargetRange],
    weekdays: Sequence[int],
) -> WeeksTable:
    """Lay out a block. A slot's row is that of the base week's slot it comes from; without a ramp, of the same exercise
    on the same day. `outside` leaves deloads out."""
    tallies = [tally_week(week, facts, anatomy, targets, weekdays, count_easy=week.deload) for week in block.weeks]
    volumes = _volumes(block.weeks, tallies, anatomy.groups)
    outside = [found for row in volumes if (found := _outside(row)).under or found.over]
    return WeeksTable(block.weeks, _days(block, facts, tallies), volumes, outside)


def _outside(row: VolumeRow) -> Outside:
    under, over = (
        [(number, cell) for number, cell in enumerate(row.cells, 1) if cell.standing == standing]
        for standing in ("under", "over")
    )
    return Outside(row, under, over)


def _days(block: Block, facts: Mapping[int, ExerciseFacts], tallies: Sequence[WeekTally]) -> list[DayRows]:
    count = len(block.weeks)
    days: dict[object, DayRows] = {}
    home: dict[object, DayRows] = {}
    for column, (week, tally) in enumerate(zip(block.weeks, tallies, strict=True)):
        for number, day in enumerate(week.days):
            rows = days.setdefault(day.origin or number, DayRows(day.name, [None] * count))
            rows.minutes[column] = whole_minutes(tally.minutes[day.key])
            seen: dict[int, int] = {}
            for slot in day.slots:
                seen[slot.exercise] = seen.get(slot.exercise, 0) + 1
                key = slot.origin or (number, slot.exercise, seen[slot.exercise])
                # An exercise that a week does on another day keeps its row.
                day_rows = home.setdefault(key, rows)
                _place(day_rows, key, slot, column, count, facts)
    return list(days.values())


def _place(day: DayRows, key: object, slot: Slot, column: int, count: int, facts: Mapping[int, ExerciseFacts]) -> None:
    name = facts[slot.exercise].name if slot.exercise in facts else ""
    row = day.rows.setdefault(key, SlotRow(slot.exercise, name, slot.reps, [None] * count))
    other = name if slot.exercise != row.exercise else ""
    row.cells[column] = SlotCell(slot, other, slot.reps != row.reps)


def _volumes(weeks: Sequence[Week], tallies: Sequence[WeekTally], order: Iterable[str]) -> list[VolumeRow]:
    by_group: dict[str, list[VolumeCell]] = {}
    first = {row.slug: row for tally in tallies[:1] for row in (*tally.trained, *tally.untrained)}
    trained = {row.slug for tally in tallies for row in tally.trained}
    for week, tally in zip(weeks, tallies, strict=True):
        for row in (*tally.trained, *tally.untrained):
            standing = "" if week.deload else row.standing
            by_group.setdefault(row.slug, []).append(VolumeCell(row.sets, standing))
    order = [slug for slug in order if slug in trained]
    return [VolumeRow(first[slug].name, first[slug].target, tuple(by_group[slug])) for slug in order]
