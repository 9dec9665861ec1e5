"""One exercise of a session, with all that its page needs."""

from typing import Any

from logbook.reads.ladders import ladder_key
from logbook.reads.reasons import reason_text
from programs.models import Exercise, PlannedSlot

PRESCRIBED = ("sets_min", "sets", "reps_min", "reps_max", "rir_min", "rir_max", "rest_s", "tempo", "note")
PRESCRIBED += ("weaker_first", "load_pct")


def exercise_dict(exercise: Exercise) -> dict[str, Any]:
    """Return an exercise: set-up, cues and cautions as written; `equipment` must be loaded with it."""
    gear = exercise.equipment
    return {
        "id": exercise.pk,
        "name": exercise.name,
        "laterality": exercise.laterality,
        "load_kind": exercise.load_kind,
        "rep_unit": exercise.rep_unit,
        "set_up": exercise.set_up,
        "cues": exercise.cues,
        "cautions": exercise.cautions,
        "equipment": {"id": gear.pk, "name": gear.name, "kind": gear.kind},
    }


def slot_entry(slot: PlannedSlot, last: dict[int, dict[str, Any]], unit: str) -> dict[str, Any]:
    """Return a slot of the plan with its target and last time's sets; reasons name loads in `unit`."""
    target = None
    if slot.target_reason or slot.target_load_kg is not None or slot.target_reps is not None:
        reason = slot.target_reason or {}
        target = {
            "load_kg": slot.target_load_kg,
            "reps": slot.target_reps,
            "action": reason.get("action", ""),
            "code": reason.get("code", ""),
            "reason": reason_text(reason, unit),
        }
    return {
        "key": f"slot-{slot.pk}",
        "slot": slot.pk,
        "pair": slot.pair,
        "exercise": exercise_dict(slot.exercise),
        "ladder": ladder_key(slot.exercise),
        "prescription": {name: getattr(slot, name) for name in PRESCRIBED},
        "target": target,
        "last": last.get(slot.exercise_id),
    }


def extra_entry(exercise: Exercise, last: dict[int, dict[str, Any]]) -> dict[str, Any]:
    """Return an exercise that the plan does not have."""
    return {
        "key": f"exercise-{exercise.pk}",
        "slot": None,
        "pair": "",
        "exercise": exercise_dict(exercise),
        "ladder": ladder_key(exercise),
        "prescription": None,
        "target": None,
        "last": last.get(exercise.pk),
    }
