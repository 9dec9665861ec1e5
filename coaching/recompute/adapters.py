"""From rows of the database to the arithmetic's own values, and nothing else."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Any

from coaching.recompute.rows import CheckInRow, ExerciseRow, Log, PainRow, SetRow, SlotRow
from periodization import compliance, dose
from periodization.flags import CheckInFact, PainFact

# From this credit on a set trains a group, as far as soreness is concerned; less is a share of something else's set.
TRAINS_FROM = 0.5


def counted_set(row: SetRow) -> dose.CountedSet:
    """Return a logged set as the volume count sees it."""
    return dose.CountedSet(str(row.exercise_id), row.rir, row.warm_up, row.side)


def planned_sets(rows: Iterable[SlotRow]) -> tuple[dose.CountedSet, ...]:
    """Return the prescribed sets of slots; a one-sided exercise is prescribed for both sides, so it counts once."""
    return tuple(one for row in rows for one in dose.planned_sets(str(row.exercise_id), row.sets, float(row.rir_max)))


def planned_slot(row: SlotRow) -> compliance.PlannedSlot:
    """Return a slot as compliance sees it."""
    return compliance.PlannedSlot(str(row.session_id), str(row.id), row.sets, float(row.rir_min), float(row.rir_max))


def done_sets(rows: Iterable[SetRow], session_of_slot: Mapping[int, int]) -> list[compliance.DoneSet]:
    """Return performed sets for compliance: the two sides of a one-sided set are one set, at the harder side's RIR.

    A set whose slot is not among `session_of_slot` is an extra, which no plan of this stretch asked for.
    """
    sides: dict[tuple[Any, ...], list[SetRow]] = defaultdict(list)
    for row in rows:
        own = row.id if row.side == "both" else None
        sides[row.session_id, row.slot_id, row.exercise_id, row.number, row.warm_up, own].append(row)
    result = []
    for (_, slot_id, *_, warm_up, _), same in sides.items():
        known = [row.rir for row in same if row.rir is not None]
        session_id = session_of_slot.get(slot_id)
        result.append(
            compliance.DoneSet(
                None if session_id is None else str(session_id),
                None if session_id is None else str(slot_id),
                min(known) if known else None,
                warm_up,
            )
        )
    return result


def check_in_fact(row: CheckInRow) -> CheckInFact:
    """Return a check-in as the flag rules see it."""
    groups = tuple(sorted(str(group) for group in row.sore_groups))
    return CheckInFact(row.date, str(row.id), row.fatigue, row.sleep, row.soreness, row.stress, row.mood, groups)


def pain_day(row: PainRow, zone: dt.tzinfo) -> dt.date:
    """Return the day of the client's calendar that a report belongs to: its session's, else its own."""
    return row.session_date or row.reported_at.astimezone(zone).date()


def pain_fact(row: PainRow, zone: dt.tzinfo) -> PainFact:
    """Return a report of pain as the flag rules see it."""
    exercise = None if row.exercise_id is None else str(row.exercise_id)
    return PainFact(str(row.id), pain_day(row, zone), row.score, row.site, exercise)


def trained_groups(exercise: ExerciseRow) -> tuple[str, ...]:
    """Return the groups that a set of the exercise really trains, in a fixed order."""
    return tuple(
        sorted(
            {
                exercise.group_of_head[head]
                for head, credit in exercise.credits.items()
                if credit >= TRAINS_FROM and head in exercise.group_of_head
            }
        )
    )


def mass_on(log: Log, day: dt.date, valid: dt.timedelta) -> tuple[str, float] | None:
    """Return (id, kg) of the latest body mass up to `day` that is not older than `valid`; None when unknown."""
    known = [row for row in log.masses if day - valid <= row.date <= day]
    return (str(known[-1].id), known[-1].mass_kg) if known else None
