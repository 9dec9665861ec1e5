"""Ladders from the JSON that is stored with equipment."""

from collections.abc import Mapping, Sequence
from typing import Any

from periodization.loads.ladders import (
    Assisted,
    BodyWeightPlus,
    FixedSteps,
    Listed,
    LoadLadder,
    NoLoad,
    PlatePairs,
    Stack,
)
from periodization.loads.settings import MOST_SETTINGS, settings_of
from periodization.units import to_kg

# In the unit given. Also turns away infinity and whole numbers too large for a float.
HEAVIEST = 5000


def ladder_from_dict(data: Mapping[str, Any]) -> LoadLadder:
    """Return the ladder that `data` describes; anything wrong is a ValueError in plain words.

    Kinds: fixed {min,max,step}; listed {values}; plates {bar, pairs: [[plate, pairs of it], ...]}; stack {pins} or
    {min,max,step}, with {add_ons}; body_weight_plus {inner}; assisted {inner}; none. `unit` is kg unless it says lb.
    """
    if not isinstance(data, Mapping):
        raise ValueError("Loads must be described by a list of named values.")
    ladder = _build(data)
    settings_of(ladder)  # also refuses plates that make too many loads
    return ladder


def _build(data: Mapping[str, Any]) -> LoadLadder:
    kind = data.get("kind")
    if kind == "none":
        return NoLoad()
    if kind in ("body_weight_plus", "assisted"):
        inner = data.get("inner")
        if not isinstance(inner, Mapping) or inner.get("kind") in ("body_weight_plus", "assisted"):
            raise ValueError("Say under 'inner' which weights can be chosen.")
        return BodyWeightPlus(_build(inner)) if kind == "body_weight_plus" else Assisted(_build(inner))
    unit = data.get("unit", "kg")
    if unit not in ("kg", "lb"):
        raise ValueError("The unit must be kg or lb.")

    def kg(value: object, what: str, above: float = -1.0) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float) or value != value:
            raise ValueError(f"{what} must be a number.")
        if value > HEAVIEST:
            raise ValueError(f"{what} is heavier than any equipment.")
        if value < 0 or value <= above:
            raise ValueError(f"{what} must be {'more than 0' if above >= 0 else '0 or more'}.")
        return to_kg(float(value), unit)

    def several(value: object, what: str) -> tuple[float, ...]:
        if not isinstance(value, Sequence) or isinstance(value, str):
            raise ValueError(f"{what} must be a list of numbers.")
        return tuple(sorted({kg(v, f"Each of {what.lower()}") for v in value}))

    def steps() -> FixedSteps:
        low, high = kg(data.get("min"), "The lightest load"), kg(data.get("max"), "The heaviest load")
        step = kg(data.get("step"), "The step", above=0)
        if high < low:
            raise ValueError("The heaviest load is lighter than the lightest.")
        if (high - low) / step > MOST_SETTINGS:
            raise ValueError("The step is too small for this range.")
        return FixedSteps(low, high, step)

    if kind == "fixed":
        return steps()
    if kind == "listed":
        values = several(data.get("values"), "The loads")
        if not values:
            raise ValueError("Name at least one load.")
        return Listed(values)
    if kind == "plates":
        return PlatePairs(kg(data.get("bar"), "The bar"), _pairs(data.get("pairs"), kg))
    if kind == "stack":
        pins = several(data["pins"], "The pins") if "pins" in data else settings_of(steps())
        if not pins:
            raise ValueError("Name at least one pin.")
        add_ons = several(data.get("add_ons", ()), "The add-on weights")
        if len(add_ons) > 6:
            raise ValueError("At most 6 add-on weights.")
        return Stack(pins, add_ons)
    raise ValueError(f"Unknown kind of loads: {kind!r}. Use fixed, listed, plates, stack or none.")


def _pairs(value: object, kg: Any) -> tuple[tuple[float, int], ...]:
    if not isinstance(value, Sequence) or isinstance(value, str):
        raise ValueError("The plates must be a list of plate and number of pairs.")
    pairs: dict[float, int] = {}
    for item in value:
        if not isinstance(item, Sequence) or isinstance(item, str) or len(item) != 2:
            raise ValueError("Each plate needs its weight and how many pairs of it there are.")
        plate, count = kg(item[0], "A plate", above=0), item[1]
        if isinstance(count, bool) or not isinstance(count, int) or not 1 <= count <= 20:
            raise ValueError("The number of pairs of a plate must be 1 to 20.")
        pairs[plate] = pairs.get(plate, 0) + count
    return tuple(sorted(pairs.items(), reverse=True))
