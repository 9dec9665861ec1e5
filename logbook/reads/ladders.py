"""The loads an exercise's equipment can make, as a phone steps through them."""

from functools import lru_cache
from typing import Any

from periodization.loads import (
    Assisted,
    BodyWeightPlus,
    LoadLadder,
    NoLoad,
    PlatePairs,
    ladder_from_dict,
    plates_for,
    settings_of,
)
from programs.models import Exercise, LoadKind

# A rack of micro plates can make thousands of loads: beyond this many a phone steps by the smallest step instead.
MOST_SETTINGS = 1200


def ladder_of(exercise: Exercise) -> LoadLadder:
    """Return the ladder of the exercise's equipment; where the body is part of the load, as help or added load."""
    try:
        ladder = ladder_from_dict(exercise.equipment.ladder)
    except ValueError:
        # A ladder that was damaged by hand must not take the session page away; loads can still be typed.
        ladder = NoLoad()
    if isinstance(ladder, Assisted | BodyWeightPlus):
        return ladder
    if exercise.load_kind == LoadKind.ASSISTED:
        return Assisted(ladder)
    return BodyWeightPlus(ladder) if exercise.load_kind == LoadKind.BODY_PLUS else ladder


def ladder_key(exercise: Exercise) -> str:
    """Name the ladder, so that exercises on the same equipment share one list."""
    return f"{exercise.equipment_id}-{exercise.load_kind}"


def ladder_dict(exercise: Exercise) -> dict[str, Any]:
    """Return {"settings": kg from light to heavy, "plates": kg for one side of each setting or None, "unit": marked on
    the equipment}."""
    return {**_as_dict(ladder_of(exercise)), "unit": _marked_in(exercise.equipment.ladder)}


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
