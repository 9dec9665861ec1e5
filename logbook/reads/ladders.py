"""The loads an exercise's equipment can make, as a phone steps through them."""

from functools import lru_cache
from typing import Any

from periodization.loads import Assisted, BodyWeightPlus, LoadLadder, PlatePairs, plates_for, settings_of
from programs.models import Exercise
from programs.services.ladders import description_in, ladder_of

# A rack of micro plates can make thousands of loads: beyond this many a phone steps by the smallest step instead.
MOST_SETTINGS = 1200


def ladder_key(exercise: Exercise) -> str:
    """Name the ladder, so that exercises on the same equipment share one list."""
    return f"{exercise.equipment_id}-{exercise.load_kind}"


def ladder_dict(exercise: Exercise, unit: str) -> dict[str, Any]:
    """Return {"settings": kg from light to heavy, "plates": kg for one side of each setting or None, "unit": marked on
    the equipment} for someone who logs in `unit`."""
    description = description_in(exercise.equipment.ladder, exercise.equipment.ladder_lb, unit)
    return {**_as_dict(ladder_of(description, exercise.load_kind)), "unit": _marked_in(description)}


def _marked_in(description: dict[str, Any]) -> str:
    inner = description.get("inner") or description
    return "lb" if inner.get("unit") == "lb" else "kg"


@lru_cache(maxsize=256)
def _as_dict(ladder: LoadLadder) -> dict[str, Any]:
    settings = sorted(settings_of(ladder))[:MOST_SETTINGS]
    inner = ladder.inner if isinstance(ladder, Assisted | BodyWeightPlus) else ladder
    plates = None
    if isinstance(inner, PlatePairs):
        plates = [plates_for(inner, kg) or () for kg in settings]
    return {"settings": settings, "plates": plates}
