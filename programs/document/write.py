"""A document as JSON, and a prescription as words."""

from typing import Any

from programs.document.model import Block, Day, Document, Range, Slot, Week
from programs.document.ranges import show_range


def document_to_json(document: Document) -> dict[str, Any]:
    """Return what `document_from_json` reads; a single number of sets is written as a number, a range as a list."""
    return {"blocks": [_block(block) for block in document.blocks]}


def written(slot: Slot) -> str:
    """Return the prescription as a coach writes it: `3–4 × 8–12 @ 1–2 RIR`."""
    return f"{show_range(slot.sets)} × {show_range(slot.reps)} @ {show_range(slot.rir)} RIR"


def _block(block: Block) -> dict[str, Any]:
    return {"key": block.key, "name": block.name, "weeks": [_week(week) for week in block.weeks]}


def _week(week: Week) -> dict[str, Any]:
    days = [_day(day) for day in week.days]
    return {"key": week.key, "deload": week.deload, "note": week.note, "days": days}


def _day(day: Day) -> dict[str, Any]:
    return {"key": day.key, "name": day.name, "slots": [_slot(slot) for slot in day.slots]}


def _slot(slot: Slot) -> dict[str, Any]:
    return {
        "key": slot.key,
        "exercise": slot.exercise,
        "pair": slot.pair,
        "sets": _number_or_range(slot.sets),
        "reps": list(slot.reps),
        "rir": list(slot.rir),
        "rest_s": slot.rest_s,
        "tempo": slot.tempo,
        "note": slot.note,
    }


def _number_or_range(ends: Range) -> int | list[int]:
    return ends[0] if ends[0] == ends[1] else list(ends)
