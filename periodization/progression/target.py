"""What is asked for, what is suggested, and the numbers the suggestion rests on."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from periodization.rules import Param, Rule

RULE = Rule(
    "progression.double",
    1,
    "2-10 %: ACSM 2009; per-set table: J Hum Kinet 2024;91:87-103; reps first, then load: defined here",
)

Action = Literal["first", "reps_up", "load_up", "hold", "reduce", "stop"]


@dataclass(frozen=True, slots=True)
class Prescription:
    """The slot to come: working sets of `reps_min` to `reps_max` with `rir_min` to `rir_max` in reserve."""

    sets: int
    reps_min: int
    reps_max: int
    rir_min: float
    rir_max: float

    def __post_init__(self) -> None:
        if not (self.sets >= 1 and 1 <= self.reps_min <= self.reps_max and 0 <= self.rir_min <= self.rir_max):
            raise ValueError("A prescription needs a set, and ranges that do not fall.")


@dataclass(frozen=True, slots=True)
class Target:
    """One suggestion. `load_kg` is a setting of the ladder (None: nothing to go by); `evidence` are set ids."""

    load_kg: float | None
    reps: int
    action: Action
    code: str
    params: Mapping[str, Param] = field(default_factory=dict)
    evidence: tuple[str, ...] = ()
    rule_id: str = RULE.id
    version: int = RULE.version


@dataclass(frozen=True, slots=True)
class ProgressionSettings:
    """Published: the 2-10 % of ACSM 2009. Chosen: all others.

    `reps_past_top`: how far repetitions may go over the range when no load fits. `break_days` without the exercise
    lead to `break_share` of the load. A load `doubtful_share` over the median of those before, or `doubtful_reps` over
    the range, is taken for a slip of the pen.
    """

    step_min: float = 0.02
    step_max: float = 0.10
    reps_past_top: int = 5
    break_days: int = 21
    break_share: float = 0.9
    doubtful_share: float = 0.3
    doubtful_reps: int = 15
    reduce_gap: float = 2.0
    reduce_gap_twice: float = 1.0


DEFAULT = ProgressionSettings()
