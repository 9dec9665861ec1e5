"""Pounds and kilograms. Everything inside this package is in kilograms."""

from typing import Literal

Unit = Literal["kg", "lb"]

# The international avoirdupois pound, exact by definition since 1959.
KG_PER_LB = 0.45359237


def to_kg(load: float, unit: Unit) -> float:
    """Convert a load in `unit` to kilograms; an unknown unit is a ValueError, never a guess."""
    if unit == "kg":
        return load
    if unit == "lb":
        return load * KG_PER_LB
    raise ValueError(f"Unknown unit of load: {unit!r}. Use kg or lb.")


def from_kg(kg: float, unit: Unit) -> float:
    """Convert kilograms to `unit`, unrounded."""
    if unit == "kg":
        return kg
    if unit == "lb":
        return kg / KG_PER_LB
    raise ValueError(f"Unknown unit of load: {unit!r}. Use kg or lb.")
