"""The loads that a client's equipment can really make for an exercise."""

from typing import Any

from periodization.loads import Assisted, BodyWeightPlus, LoadLadder, NoLoad, ladder_from_dict
from programs.models import Exercise, LoadKind


def description_in(ladder: dict[str, Any], ladder_lb: dict[str, Any] | None, unit: str) -> dict[str, Any]:
    """Choose the stored description: the one marked in pounds for someone who logs in pounds, where there is one."""
    return ladder_lb if unit == "lb" and ladder_lb else ladder


def ladder_of(description: dict[str, Any], load_kind: str) -> LoadLadder:
    """Return what the equipment makes, with the body as part of the load where the kind of load says so."""
    try:
        ladder = ladder_from_dict(description)
    except ValueError:
        # A ladder that was damaged by hand must not take a page or a client's week away; nothing heavier follows.
        ladder = NoLoad()
    if isinstance(ladder, Assisted | BodyWeightPlus):
        return ladder
    if load_kind == LoadKind.ASSISTED:
        return Assisted(ladder)
    return BodyWeightPlus(ladder) if load_kind == LoadKind.BODY_PLUS else ladder


def exercise_ladder(exercise: Exercise, unit: str) -> LoadLadder:
    """Return the ladder of an exercise (its equipment loaded) for someone who logs in `unit`."""
    equipment = exercise.equipment
    return ladder_of(description_in(equipment.ladder, equipment.ladder_lb, unit), exercise.load_kind)
