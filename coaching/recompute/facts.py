"""What the flag rules are told about the weeks up to a day."""

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping
from uuid import UUID

from coaching.recompute.adapters import check_in_fact, pain_fact, trained_groups
from coaching.recompute.calendar import LOOKBACK
from coaching.recompute.rows import Log, SetRow, SlotRow
from coaching.recompute.strength import SetEstimate
from coaching.recompute.volume import begun
from periodization.flags import ClientHistory, Exposure, PlannedFact, SetFact, WeekVolume


def history(
    log: Log,
    estimates: Mapping[UUID, SetEstimate],
    monday: dt.date,
    as_of: dt.date,
    zone: dt.tzinfo,
    volume: tuple[WeekVolume, ...],
) -> ClientHistory:
    """Return the facts that the row of the week from `monday` may know on `as_of`."""
    start = monday - LOOKBACK
    return ClientHistory(
        exposures=exposures(log, estimates, start, as_of),
        check_ins=tuple(check_in_fact(row) for row in log.check_ins if start <= row.date <= as_of),
        pains=tuple(fact for fact in (pain_fact(row, zone) for row in log.pains) if start <= fact.day <= as_of),
        planned=planned_facts(log, start, as_of),
        volume=volume,
    )


def exposures(log: Log, estimates: Mapping[UUID, SetEstimate], start: dt.date, as_of: dt.date) -> tuple[Exposure, ...]:
    """Return each exercise of each performed session, with what was prescribed for it."""
    slots = {row.id: row for row in log.slots}
    groups: dict[tuple[UUID, int], list[SetRow]] = defaultdict(list)
    for row in log.sets:
        if start <= row.date <= as_of and not row.warm_up:
            groups[row.session_id, row.exercise_id].append(row)
    return tuple(
        _exposure(log, rows, slots.get(rows[0].slot_id) if rows[0].slot_id else None, estimates)
        for rows in groups.values()
    )


def _exposure(log: Log, rows: list[SetRow], slot: SlotRow | None, estimates: Mapping[UUID, SetEstimate]) -> Exposure:
    first = rows[0]
    # A slot's exercise may have been swapped on the floor: then its repetitions were prescribed for another movement.
    if slot is not None and slot.exercise_id != first.exercise_id:
        slot = None
    return Exposure(
        day=first.date,
        session_id=str(first.session_id),
        exercise_id=str(first.exercise_id),
        groups=trained_groups(log.exercises[first.exercise_id]),
        reps_min=slot.reps_min if slot else None,
        reps_max=slot.reps_max if slot else None,
        rir_min=float(slot.rir_min) if slot else None,
        rir_max=float(slot.rir_max) if slot else None,
        sets=tuple(_set_fact(same, estimates) for same in _by_set(rows)),
        sets_prescribed=slot.sets if slot else None,
        deload=bool(slot and slot.is_deload),
    )


def _by_set(rows: list[SetRow]) -> list[list[SetRow]]:
    """Bring the sides of one-sided sets together, in the order done."""
    found: dict[tuple[int, UUID | None], list[SetRow]] = defaultdict(list)
    for row in rows:
        found[row.number, row.id if row.side == "both" else None].append(row)
    return list(found.values())


def _set_fact(sides: list[SetRow], estimates: Mapping[UUID, SetEstimate]) -> SetFact:
    """Return one set: of two sides the weaker one. With a side missing the effort counts as unknown.

    So a client who trained one side only is never told to go heavier on both.
    """
    weaker = min(sides, key=lambda row: (_e1rm(estimates[row.id]), row.reps, str(row.id)))
    estimate, point = estimates[weaker.id].estimate, estimates[weaker.id].point
    whole = weaker.side == "both" or len({row.side for row in sides}) == 2
    known = whole and all(row.rir is not None for row in sides)
    return SetFact(
        str(weaker.id),
        weaker.load_kg,
        min(row.reps for row in sides),
        min(row.rir for row in sides if row.rir is not None) if known else None,
        estimate.e1rm_kg if estimate else None,
        point.sd if point else None,
    )


def _e1rm(found: SetEstimate) -> float:
    return found.estimate.e1rm_kg if found.estimate else 0.0


def planned_facts(log: Log, start: dt.date, as_of: dt.date) -> tuple[PlannedFact, ...]:
    """Return the planned sessions up to `as_of`, each once, and whether it was done by then."""
    sessions = {row.session_id: row for row in log.slots if start <= row.date <= as_of}
    return tuple(PlannedFact(str(key), row.date, begun(row, as_of)) for key, row in sorted(sessions.items()))
