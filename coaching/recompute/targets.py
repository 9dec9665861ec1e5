"""The next load and repetitions for what is planned and not begun."""

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Any

from django.conf import settings

from coaching.recompute.adapters import mass_on
from coaching.recompute.calendar import HORIZON, MASS_VALID, WEEK, week_of
from coaching.recompute.rows import Log, SlotRow
from periodization import deload
from periodization.flags import Exposure, Flag
from periodization.progression import Prescription, Target, next_target
from periodization.progression.start import begun_with


def open_slots(log: Log) -> list[SlotRow]:
    """Return the slots that get targets: not begun, from last week's Monday to the end of the horizon."""
    first = week_of(log.today) - WEEK
    last = week_of(log.today) + WEEK + HORIZON
    return [row for row in log.slots if row.performed_on is None and first <= row.date < last]


def target_of(
    log: Log,
    row: SlotRow,
    exposures: Sequence[Exposure],
    flags: Sequence[Flag],
    as_of: dt.date,
    load_share: float | None,
) -> Target:
    """Return the target of one slot from what was done up to `as_of`; `load_share` makes it a reduced week's."""
    mass = mass_on(log, as_of, MASS_VALID)
    exercise = log.exercises[row.exercise_id]
    target = next_target(
        [one for one in exposures if one.exercise_id == str(row.exercise_id)],
        Prescription(row.sets, row.reps_min, row.reps_max, float(row.rir_min), float(row.rir_max)),
        exercise.ladder,
        flags,
        as_of,
        mass[1] * exercise.body_share if mass else None,
        load_share,
        settings.E1RM_EQUATION,
        variants=exercise.variants,
        counted=exercise.counted,
    )
    return target if row.start_load_kg is None else begun_with(target, row.start_load_kg, exercise.ladder)


def deload_share(row: SlotRow) -> float | None:
    """Return the share of the load in a reduced week, None in an ordinary one."""
    return deload.DEFAULT.load_share if row.is_deload else None


def target_json(target: Target) -> dict[str, Any]:
    """Return what PlannedSlot.target_reason keeps."""
    return {
        "action": target.action,
        "code": target.code,
        "params": dict(target.params),
        "rule_id": target.rule_id,
        "version": target.version,
        "evidence": list(target.evidence),
    }


def targets(
    log: Log, exposures: Sequence[Exposure], flags: Sequence[Flag]
) -> dict[int, tuple[float | None, int, dict[str, Any]]]:
    """Return (load in kg, repetitions, reason) for every open slot, by its id."""
    result = {}
    for row in open_slots(log):
        target = target_of(log, row, exposures, flags, log.today, deload_share(row))
        result[row.id] = (target.load_kg, target.reps, target_json(target))
    return result


def changed(log: Log, wanted: Mapping[int, tuple[float | None, int, dict[str, Any]]]) -> dict[int, Any]:
    """Return only the targets that differ from what the plan says now, so that an idle recompute writes nothing."""
    now = {row.id: (row.target_load_kg, row.target_reps, row.target_reason) for row in log.slots}
    return {key: value for key, value in wanted.items() if now[key] != value}
