"""From a document to the rows of a plan. The one place that does it: for assigning, and for whatever changes a copy."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from programs.document import Document, Slot, labels
from programs.services.assignment_dates import DatedDay, dated_days


@dataclass(frozen=True, slots=True)
class DatedRows:
    """`session` are the fields of a PlannedSession, `slots` those of its PlannedSlots, without whose they are."""

    session: dict[str, Any]
    slots: list[dict[str, Any]]


def dated_rows(
    document: Document,
    starts_on: date,
    weekdays: Sequence[int],
    version: int,
    start_loads: Mapping[str, float] | None = None,
) -> list[DatedRows]:
    """Return a session for each training day that has exercises, in the order of the program.

    `document` is the program's with the client's adaptations applied; `version` is the program's that it came from;
    `start_loads` are kilograms by slot key.
    """
    return [
        DatedRows(session_fields(day, version), slot_rows(day.day.slots, start_loads or {}))
        for day in dated_days(document, starts_on, weekdays)
    ]


def session_fields(day: DatedDay, version: int) -> dict[str, Any]:
    """Return a dated training day as the fields of a PlannedSession."""
    return {
        "date": day.date,
        "day_name": day.day.name,
        "block_name": day.block.name,
        "block_number": day.block_number,
        "week_number": day.week_number,
        "day_number": day.day_number,
        "week_key": day.week.key,
        "day_key": day.day.key,
        "program_version": version,
        "is_deload": day.week.deload,
    }


def slot_rows(slots: tuple[Slot, ...], start_loads: Mapping[str, float]) -> list[dict[str, Any]]:
    """Return the slots of one day as the fields of PlannedSlots, numbered from 1."""
    return [
        planned_fields(slot, mark, place) | {"start_load_kg": start_loads.get(slot.key)}
        for place, (slot, mark) in enumerate(zip(slots, labels(slots), strict=True), 1)
    ]


def planned_fields(slot: Slot, label: str, position: int) -> dict[str, Any]:
    """Return a slot of the document as the fields of a PlannedSlot."""
    return {
        "slot_key": slot.key,
        "position": position,
        "pair": label,
        "exercise_id": slot.exercise,
        "sets_min": slot.sets[0] if slot.sets[0] != slot.sets[1] else None,
        "sets": slot.sets[1],
        "reps_min": slot.reps[0],
        "reps_max": slot.reps[1],
        "rir_min": slot.rir[0],
        "rir_max": slot.rir[1],
        "rest_s": slot.rest_s,
        "tempo": slot.tempo,
        "note": slot.note,
        "weaker_first": slot.weaker_first,
        "load_pct": slot.load_pct,
    }
