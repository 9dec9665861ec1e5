"""How many hard sets a week a muscle group should get: the range, and the spread of opinion behind it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from periodization.rules import Param, Reason, Rule

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
    """What one publication says about weekly sets, for showing beside a target.

    `floor` and `ceiling` in sets a week, None: it names no such bound. `code` picks the sentence. `groups`: the muscle
    groups it speaks of, empty for all.
    """

    code: str
    floor: float
    ceiling: float | None
    source: str
    standing: str
    groups: tuple[str, ...] = ()

    @property
    def params(self) -> dict[str, Param]:
        """What fills the sentence."""
        found: dict[str, Param] = {"floor": self.floor}
        return found if self.ceiling is None else {**found, "ceiling": self.ceiling}


OPINIONS: tuple[Opinion, ...] = (
    Opinion("opinion_best_supported", 10, None, "Bernárdez-Vázquez et al. 2022", "SOURCED"),
    Opinion("opinion_trained_young_men", 12, 20, "Baz-Valle et al. 2022", "SOURCED"),
    Opinion("opinion_over_for_triceps", 20, None, "Baz-Valle et al. 2022", "SOURCED", ("triceps",)),
    Opinion("opinion_most_of_three", 10, None, "Schoenfeld et al. 2017", "MEMORY"),
    Opinion("opinion_detectable", 4, 10, "press summary of Pelland et al. 2024", "SOURCED-2nd"),
)


def opinions_on(group: str) -> tuple[Opinion, ...]:
    """Return the opinions that speak of a muscle group (its slug), in the order of OPINIONS."""
    return tuple(one for one in OPINIONS if not one.groups or group in one.groups)


def spread_on(group: str) -> Reason:
    """Say from where to where the opinions on a muscle group reach; those without an upper end count by their lower."""
    found = opinions_on(group)
    bounds = [bound for one in found for bound in (one.floor, one.ceiling) if bound is not None]
    return Reason("opinions_spread", {"count": len(found), "lowest": min(bounds), "highest": max(bounds)})


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
