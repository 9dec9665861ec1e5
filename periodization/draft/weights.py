"""What a draft is worth: every weight, its default and its unit. All CHOSEN; docs/methods/draft.md says why."""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from typing import get_args

from periodization.targets import Priority

PRIORITY_FACTORS: Mapping[Priority, float] = {"focus": 3.0, "normal": 1.0, "maintain": 0.3, "incidental": 0.1}


@dataclass(frozen=True, slots=True)
class GradeWeights:
    """Shares of the four grades in an exercise's quality, 0 (all grades 1) to 1 (all grades 5)."""

    activation: float = 1.0
    long_length: float = 1.0
    loadability: float = 1.0
    near_failure: float = 0.5


@dataclass(frozen=True, slots=True)
class Weights:
    """Points. Those marked * are multiplied by the group's priority factor.

    `volume`* a fractional set between the floor and the aim; `floor`* a set missing under a wished floor; `over`* a set
    over a wished ceiling; `heads`* a head trained directly; `long`* a group with an exercise that loads it long;
    `variety`* a joint action that a group's heads perform; `grade` a set of an exercise of quality 0 (a set of quality
    1 costs nothing); `setup` a minute of setting up; `station` a piece of equipment used on a day; `repeat` the same
    exercise on one more day; `spacing`* a group trained again too soon.
    """

    volume: float = 1.0
    floor: float = 3.0
    over: float = 2.0
    heads: float = 2.0
    long: float = 2.0
    variety: float = 0.5
    grade: float = 2.0
    setup: float = 0.2
    station: float = 0.2
    repeat: float = 0.3
    spacing: float = 1.0
    grades: GradeWeights = field(default_factory=GradeWeights)
    priority: Mapping[Priority, float] = field(default_factory=lambda: dict(PRIORITY_FACTORS))


def check_weights(weights: Weights) -> None:
    """Raise ValueError for a weight that would turn the draft round."""
    single = {f.name: getattr(weights, f.name) for f in fields(weights) if f.name not in ("grades", "priority")}
    shares = {f"grades.{f.name}": getattr(weights.grades, f.name) for f in fields(weights.grades)}
    factors = {f"priority.{name}": factor for name, factor in weights.priority.items()}
    for name, value in {**single, **shares, **factors}.items():
        if not 0 <= value <= 1000:
            raise ValueError(f"The weight {name} must lie between 0 and 1000, not {value}.")
    if not any(shares.values()):
        raise ValueError("At least one of the four grades needs a weight over 0.")
    if weights.floor < weights.volume:
        # Otherwise a set over the floor would pay for a set missing under it.
        raise ValueError("A set missing under the floor must weigh at least as much as one over it.")
    if missing := set(get_args(Priority)) - set(weights.priority):
        raise ValueError(f"The priority {min(missing)} has no factor.")
