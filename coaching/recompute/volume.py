"""Planned, done and still planned hard sets of one week, per head, muscle and group with its range."""

import datetime as dt
from collections.abc import Iterable, Mapping, Set
from dataclasses import dataclass
from typing import Any

from coaching.recompute.adapters import counted_set, planned_sets
from coaching.recompute.calendar import WEEK
from coaching.recompute.rows import ExerciseRow, Log, SetRow, SlotRow
from periodization import dose
from periodization.targets import RULE as TARGET_RULE
from periodization.targets import TargetRange


@dataclass(frozen=True)
class Counted:
    """One count of sets: `groups` by weekly target, `volume` by head and muscle with its tallies."""

    volume: dose.Volume
    groups: dict[str, float]


def count(sets: Iterable[dose.CountedSet], exercises: Mapping[int, ExerciseRow]) -> Counted:
    """Count sets per head, muscle and group.

    The heads of one muscle may belong to different groups (the three of the deltoid do), so the groups are counted
    from the heads in a second go, and not from the muscles. Heads without a group have no target and are left out.
    """
    sets = tuple(sets)
    credits = {str(e.id): e.credits for e in exercises.values()}
    muscles = {h: m for e in exercises.values() for h, m in e.muscle_of_head.items()}
    groups = {h: g for e in exercises.values() for h, g in e.group_of_head.items()}
    by_head = dose.weekly_volume(sets, credits, muscles, {})
    grouped = {
        key: {h: c for h, c in e.credits.items() if h in groups}
        for key, e in ((str(e.id), e) for e in exercises.values())
    }
    by_group = dose.weekly_volume(sets, grouped, groups, {})
    return Counted(by_head, dict(by_group.by_muscle))


@dataclass(frozen=True)
class WeekVolumes:
    planned: Counted
    done: Counted
    ahead: Counted
    done_rows: tuple[SetRow, ...]
    planned_rows: tuple[SlotRow, ...]


def week_volumes(log: Log, monday: dt.date, as_of: dt.date) -> WeekVolumes:
    """Count one week. `ahead`, planned from `as_of` on and not begun, is with `done` where the week goes."""
    done = tuple(row for row in log.sets if monday <= row.date < monday + WEEK and row.date <= as_of)
    planned = tuple(row for row in log.slots if monday <= row.date < monday + WEEK)
    ahead = tuple(row for row in planned if row.date >= as_of and not begun(row, as_of))
    return WeekVolumes(
        count(planned_sets(planned), log.exercises),
        count(map(counted_set, done), log.exercises),
        count(planned_sets(ahead), log.exercises),
        done,
        planned,
    )


def begun(row: SlotRow, as_of: dt.date) -> bool:
    """Say whether something of the slot's session was logged by `as_of`."""
    return row.performed_on is not None and row.performed_on <= as_of


def aimed_groups(rows: Iterable[SlotRow], exercises: Mapping[int, ExerciseRow]) -> set[str]:
    """Return the groups that the plan trains directly; a share of something else's set is no aim to fall short of."""
    return {
        exercises[row.exercise_id].group_of_head[head]
        for row in rows
        for head, credit in exercises[row.exercise_id].credits.items()
        if credit == 1 and head in exercises[row.exercise_id].group_of_head
    }


def volume_json(
    found: WeekVolumes, targets: Mapping[str, TargetRange], running: bool, aimed: Set[str]
) -> dict[str, Any]:
    """Return what WeekSummary.volume keeps; `aimed` groups can be under their range, the others only over it."""
    groups = {}
    for group in sorted({*found.planned.groups, *found.done.groups, *targets}):
        target = targets.get(group)
        groups[group] = {
            "planned": found.planned.groups.get(group, 0.0),
            "done": found.done.groups.get(group, 0.0),
            "ahead": found.ahead.groups.get(group, 0.0),
            "floor": target.floor if target else None,
            "ceiling": target.ceiling if target else None,
            "source": target.source if target else "",
            "aimed": group in aimed,
        }
    return {
        "groups": groups,
        "muscles": _pairs(found.planned.volume.by_muscle, found.done.volume.by_muscle),
        "heads": _pairs(found.planned.volume.by_head, found.done.volume.by_head),
        "running": running,
        # A week of reduced training lies under its ranges on purpose.
        "deload": bool(found.planned_rows) and all(row.is_deload for row in found.planned_rows),
        "tally": {
            "hard": found.done.volume.hard_sets,
            "unknown_effort": found.done.volume.unknown_effort_sets,
            "easy": found.done.volume.easy_sets,
            "warm_up": found.done.volume.warm_up_sets,
        },
    }


def set_input(row: SetRow) -> list[Any]:
    """Return a set as WeekSummary.inputs keeps it (read by coaching/why/kept_rows.py)."""
    own = [str(row.id), row.exercise_id, row.rir, row.warm_up, row.side, str(row.session_id)]
    return [*own, row.slot_id, row.number]


def volume_inputs(found: WeekVolumes, exercises: Mapping[int, ExerciseRow]) -> dict[str, Any]:
    """Return the sets counted and the credits they were counted with."""
    used = sorted({row.exercise_id for row in found.done_rows} | {row.exercise_id for row in found.planned_rows})
    return {
        "sets": [set_input(row) for row in found.done_rows],
        "slots": [
            [
                row.id,
                row.exercise_id,
                row.sets,
                row.rir_max,
                row.session_id,
                row.rir_min,
                row.date.isoformat(),
                row.performed_on.isoformat() if row.performed_on else "",
            ]
            for row in found.planned_rows
        ],
        "credits": {
            str(i): {
                head: [credit, exercises[i].muscle_of_head[head], exercises[i].group_of_head.get(head)]
                for head, credit in exercises[i].credits.items()
            }
            for i in used
        },
        "rir_limit": dose.DEFAULT_RIR_LIMIT,
        "rules": [[dose.RULE.id, dose.RULE.version], [TARGET_RULE.id, TARGET_RULE.version]],
    }


def _pairs(planned: Mapping[str, float], done: Mapping[str, float]) -> dict[str, dict[str, float]]:
    return {key: {"planned": planned.get(key, 0.0), "done": done.get(key, 0.0)} for key in sorted({*planned, *done})}
