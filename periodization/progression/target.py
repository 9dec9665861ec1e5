"""What is asked for, what is suggested, and the numbers the suggestion rests on."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from periodization.rules import Param, Rule

RULE = Rule(
    "progression.double",
    3,
    "2-10 %: ACSM 2009; per-set table: J Hum Kinet 2024;91:87-103; reps first, then load: defined here",
)

Action = Literal["first", "reps_up", "load_up", "hold", "reduce", "stop"]
# What "repetitions" are: held seconds and steps go up in larger steps, and no table of loads was printed for them.
Counted = Literal["reps", "seconds", "steps"]


@dataclass(frozen=True, slots=True)
class Prescription:
    """The slot to come: working sets of `reps_min` to `reps_max` with `rir_min` to `rir_max` in reserve.

    For an exercise that is held or walked, `reps` are seconds or steps.
    """

    sets: int
    reps_min: int
    reps_max: int
    rir_min: float
    rir_max: float

    def __post_init__(self) -> None:
        if not (self.sets >= 1 and 1 <= self.reps_min <= self.reps_max and 0 <= self.rir_min <= self.rir_max):
            raise ValueError("A prescription needs a set, and ranges that do not fall.")


@dataclass(frozen=True, slots=True)
class Variants:
    """Names of the exercise's easier and harder variant, for advice where no load fits; "" where none is known."""

    easier: str = ""
    harder: str = ""


NO_VARIANTS = Variants()


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

    `rep_step`: by how much repetitions go up, and `most_reps_up` where every set left as many over the highest RIR
    prescribed; `reps_past_top`: how far they may go over the range when no load fits.
    `break_days` without the exercise
    lead to `break_share` of the load. A load `doubtful_share` over the median of those before, or `doubtful_reps` over
    the range, is taken for a slip of the pen.
    """

    step_min: float = 0.02
    step_max: float = 0.10
    rep_step: int = 1
    most_reps_up: int = 3
    reps_past_top: int = 5
    break_days: int = 21
    break_share: float = 0.9
    doubtful_share: float = 0.3
    doubtful_reps: int = 15
    reduce_gap: float = 2.0
    reduce_gap_twice: float = 1.0


DEFAULT = ProgressionSettings()
SETTINGS: Mapping[Counted, ProgressionSettings] = {
    "reps": DEFAULT,
    "seconds": replace(DEFAULT, rep_step=5, reps_past_top=15, doubtful_reps=60),
    "steps": replace(DEFAULT, rep_step=2, reps_past_top=10, doubtful_reps=40),
}

# Codes whose sentence speaks of repetitions: for held seconds and steps they end in the word.
COUNTED_CODES = frozenset(
    {
        "first_time",
        "first_time_no_load",
        "first_time_assisted",
        "add_reps",
        "add_load",
        "step_too_large",
        "no_load_to_compare",
        "no_heavier_load",
        "hold_body_unknown",
        "hold_under_floor",
        "hold_effort_unknown",
        "hold_sets_missing",
        "reduce_under_floor",
        "floor_no_lighter",
        "floor_no_lighter_variant",
        "easier_variant",
        "easier_variant_variant",
        "limit_step",
        "limit_step_variant",
        "limit_top",
        "limit_top_variant",
        "limit_body",
    }
)
