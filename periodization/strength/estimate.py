"""e1RM from a performed set, how far it can be trusted, and the way back to a load."""

import math
from dataclasses import dataclass

from periodization.strength.formulas import Formula, formula_named

# Chosen: past 20 repetitions to failure no estimate is given at all.
MAX_REPS_TO_FAILURE = 20.0
# Halperin 2022: reports are better in sets of 12 or fewer; Reynolds 2006: use no more than 10.
TRUSTED_REPS = 10.0
# Hackett 2017: about one repetition off with 0-5 left, more than two with 7-10 left.
TRUSTED_RIR = 4.0
UNKNOWN_EFFORT_CONFIDENCE = 0.4


@dataclass(frozen=True, slots=True)
class StrengthEstimate:
    """An e1RM in kg with the equation it came from. `confidence` is 0..1; `reasons` say what lowered it."""

    e1rm_kg: float
    formula: str
    version: int
    reps_to_failure: float
    confidence: float
    reasons: tuple[str, ...]


def estimate_e1rm(load_kg: float, reps: int, rir: float | None, formula: str = "epley") -> StrengthEstimate | None:
    """Estimate the one-repetition maximum in kg of a set of `reps` with `rir` left.

    None when nothing can be said: no load, no repetition, or more than 20 repetitions to failure. An unknown RIR adds
    no repetitions, which can only make the estimate too low, and the confidence says so. Adding RIR to the repetitions
    is a convention, not a validated equation.
    """
    chosen = formula_named(formula)
    if not (math.isfinite(load_kg) and load_kg > 0 and reps >= 1):
        return None
    if rir is not None and not (math.isfinite(rir) and rir >= 0):
        raise ValueError(f"Repetitions in reserve must be zero or more, not {rir}.")
    to_failure = float(reps + (rir or 0.0))
    if to_failure > MAX_REPS_TO_FAILURE:
        return None
    confidence, reasons = _confidence(chosen, to_failure, rir)
    return StrengthEstimate(
        chosen.predict(load_kg, to_failure), chosen.name, chosen.version, to_failure, confidence, reasons
    )


def load_for(e1rm_kg: float, reps: float, rir: float | None, formula: str = "epley") -> float:
    """Return the load in kg that an e1RM allows for `reps` with `rir` left, before rounding to real loads.

    0.0 when the e1RM is zero. The inverse of `estimate_e1rm` where that gives an estimate.
    """
    if not (math.isfinite(e1rm_kg) and e1rm_kg >= 0):
        raise ValueError(f"An e1RM must be zero or more, not {e1rm_kg}.")
    return e1rm_kg / formula_named(formula).factor(reps + (rir or 0.0))


def _confidence(formula: Formula, to_failure: float, rir: float | None) -> tuple[float, tuple[str, ...]]:
    """Return a share 0..1 and what lowered it. The sizes are chosen; the directions are published."""
    confidence, reasons = 1.0, []
    limit = min(TRUSTED_REPS, formula.max_reps)
    if to_failure > limit:
        # Falls in a straight line to 0.3 at the last repetition that still gives an estimate.
        confidence *= 1 - 0.7 * (to_failure - limit) / (MAX_REPS_TO_FAILURE - limit)
        reasons.append("reps_over_range")
    if rir is None:
        confidence *= UNKNOWN_EFFORT_CONFIDENCE
        reasons.append("effort_unknown")
    elif rir >= TRUSTED_RIR:
        confidence *= max(0.2, 0.7 - 0.1 * (rir - TRUSTED_RIR))
        reasons.append("far_from_failure")
    return confidence, tuple(reasons)
