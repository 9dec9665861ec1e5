"""A document as JSON, and a prescription as words."""

from typing import Any

from programs.document.model import Block, Day, Document, Ramp, RampRule, Range, Slot, Week
from programs.document.ranges import show_range


def document_to_json(document: Document) -> dict[str, Any]:
    """Return what `document_from_json` reads; a single number of sets is written as a number, a range as a list.
    What only a ramp needs is left out where there is none, so that a document from before reads and writes the same."""
    return {"blocks": [_block(block) for block in document.blocks]}


def written(slot: Slot) -> str:
    """Return the prescription as a coach writes it: `3–4 × 8–12 @ 1–2 RIR`."""
    return f"{show_range(slot.sets)} × {show_range(slot.reps)} @ {show_range(slot.rir)} RIR"


def _block(block: Block) -> dict[str, Any]:
    written = {"key": block.key, "name": block.name, "weeks": [_week(week) for week in block.weeks]}
    return {**written, "ramp": _ramp(block.ramp)} if block.ramp else written


def _ramp(ramp: Ramp) -> dict[str, Any]:
    return {
        "base": _week(ramp.base),
        "deload": ramp.deload,
        "every": _rule(ramp.every),
        "groups": {slug: _rule(rule) for slug, rule in ramp.groups},
        "slots": {key: _rule(rule) for key, rule in ramp.slots},
    }


def _rule(rule: RampRule) -> dict[str, Any]:
    return {
        "start": rule.start,
        "peak": rule.peak,
        "rir": list(rule.rir) if rule.rir else None,
        "load_pct": rule.load_pct,
    }


def _week(week: Week) -> dict[str, Any]:
    days = [_day(day) for day in week.days]
    written = {"key": week.key, "deload": week.deload, "note": week.note, "days": days}
    return {**written, "by_hand": True} if week.by_hand else written


def _day(day: Day) -> dict[str, Any]:
    written = {"key": day.key, "name": day.name, "slots": [_slot(slot) for slot in day.slots]}
    return {**written, "origin": day.origin} if day.origin else written


def _slot(slot: Slot) -> dict[str, Any]:
    of_ramp = {"origin": slot.origin, "by_hand": slot.by_hand, "load_pct": slot.load_pct, "group": slot.group}
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
        # Written only where it is asked for, as in the documents before it.
        **({"weaker_first": True} if slot.weaker_first else {}),
        **{name: value for name, value in of_ramp.items() if value},
    }


def _number_or_range(ends: Range) -> int | list[int]:
    return ends[0] if ends[0] == ends[1] else list(ends)
