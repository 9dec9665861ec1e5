"""How many hard sets a week a muscle group should get: the range, and the spread of opinion behind it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from periodization.rules import Rule

Status = Literal["novice", "intermediate", "advanced"]
Priority = Literal["incidental", "maintain", "normal", "focus"]

RULE = Rule("targets.range", 2, "chosen inside the spread of OPINIONS")


@dataclass(frozen=True, slots=True)
class TargetRange:
    """Fractional hard sets a week between `floor` and `ceiling`; `source` is "chosen" or "coach"."""

    floor: float
    ceiling: float
    source: str


@dataclass(frozen=True, slots=True)
class Opinion:
    """What one publication says about weekly sets, for showing beside a target. None: it names no bound."""

    floor: float | None
    ceiling: float | None
    says: str
    source: str
    standing: str


OPINIONS: tuple[Opinion, ...] = (
    Opinion(10, None, "At least 10 sets a week best supported", "Bernárdez-Vázquez et al. 2022", "SOURCED"),
    Opinion(12, 20, "12 to 20 suggested for trained young men", "Baz-Valle et al. 2022", "SOURCED"),
    Opinion(20, None, "Over 20 favoured for triceps only", "Baz-Valle et al. 2022", "SOURCED"),
    Opinion(10, None, "10 or more gained most of three levels", "Schoenfeld et al. 2017", "MEMORY"),
    Opinion(
        4,
        10,
        "Growth from about 4, efficient from 5 to 10",
        "press summary of Pelland et al. 2024",
        "SOURCED-2nd",
    ),
)

# CHOSEN, every cell. Anchors: growth is detectable from about 4 fractional sets, 5 to 10 is the efficient range, 10 or
# more is best supported, 12 to 20 is suggested for the trained, and beyond 20 only the triceps showed more. Fractional
# counting gives larger numbers than direct counting, so the ceilings stay inside what the direct counters suggest.
# Incidental groups have no floor: they are trained along with others, and few people need sets of their own for them.
DEFAULTS: Mapping[Status, Mapping[Priority, tuple[float, float]]] = {
    "novice": {"incidental": (0, 10), "maintain": (3, 6), "normal": (6, 10), "focus": (8, 12)},
    "intermediate": {"incidental": (0, 16), "maintain": (4, 8), "normal": (10, 16), "focus": (12, 20)},
    "advanced": {"incidental": (0, 18), "maintain": (5, 10), "normal": (12, 18), "focus": (16, 22)},
}

# CHOSEN: what a group is to a client of whom the coach has said nothing. Groups that are not named are normal.
STANDARD_PRIORITY: Mapping[str, Priority] = {
    "abdominals": "maintain",
    "front-delt": "incidental",
    "rear-delt": "incidental",
    "rotator-cuff": "incidental",
    "forearms": "incidental",
    "lower-back": "incidental",
    "adductors": "incidental",
    "hip-flexors": "incidental",
    "shins": "incidental",
    "neck": "incidental",
}


def standard_priority(group: str) -> Priority:
    """Return the priority of a muscle group (its slug) where the coach has given none."""
    return STANDARD_PRIORITY.get(group, "normal")


def target_range(
    status: Status,
    priority: Priority,
    group: str,
    overrides: Mapping[str, tuple[float, float]] | None = None,
) -> TargetRange:
    """Return the weekly range for `group`: the coach's own when `overrides` has one, else the chosen default.

    The defaults are the same for every group of a priority: no source found gives ranges per group to rely on.
    """
    if overrides and group in overrides:
        floor, ceiling = overrides[group]
        if not 0 <= floor <= ceiling:
            raise ValueError(f"The range for {group} must rise from 0 or more: {floor} to {ceiling}.")
        return TargetRange(float(floor), float(ceiling), "coach")
    try:
        floor, ceiling = DEFAULTS[status][priority]
    except KeyError:
        raise ValueError(f"Unknown training status or priority: {status!r}, {priority!r}.") from None
    return TargetRange(float(floor), float(ceiling), "chosen")


def standing(sets: float, target: TargetRange) -> Literal["under", "inside", "over"]:
    """Say where `sets` lies; both bounds belong to the range."""
    if sets < target.floor:
        return "under"
    return "over" if sets > target.ceiling else "inside"
