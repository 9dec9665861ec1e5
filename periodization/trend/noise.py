"""How noisy one e1RM is: the test itself, the report of effort, and the equation at high repetitions."""

import math
from datetime import date
from itertools import pairwise

from periodization.strength import StrengthEstimate, formula_named
from periodization.trend.settings import DEFAULT_SETTINGS, TrendPoint, TrendSettings

# (RIR, SD of the report in repetitions). Hackett 2017: about 1 off with 0-5 left, more than 2 with 7-10 left.
REPORT_ERROR = ((0.0, 0.0), (1.0, 1.0), (5.0, 1.0), (7.0, 2.0), (10.0, 2.5))
UNKNOWN_REPORT_ERROR = 3.0
# Chosen: past 10 repetitions the person's own curve parts from the equation's by this much more per repetition.
PER_REP_PAST_TEN = 0.005


def report_error(rir: float | None) -> float:
    """Return the SD in repetitions of a reported RIR: straight lines between the published points."""
    if rir is None:
        return UNKNOWN_REPORT_ERROR
    for (x0, y0), (x1, y1) in pairwise(REPORT_ERROR):
        if rir <= x1:
            return y0 + (y1 - y0) * (rir - x0) / (x1 - x0)
    return UNKNOWN_REPORT_ERROR


def observation_sd(
    reps_to_failure: float, rir: float | None, formula: str, settings: TrendSettings = DEFAULT_SETTINGS
) -> float:
    """Return the SD of the logarithm of an e1RM: independent parts added as squares."""
    chosen = formula_named(formula)
    per_rep = math.log(chosen.factor(reps_to_failure + 0.5) / chosen.factor(max(1.0, reps_to_failure - 0.5)))
    past_ten = PER_REP_PAST_TEN * max(0.0, reps_to_failure - 10)
    return math.sqrt(settings.typical_error**2 + (per_rep * report_error(rir)) ** 2 + past_ten**2)


def trend_point(
    day: date, estimate: StrengthEstimate, rir: float | None, settings: TrendSettings = DEFAULT_SETTINGS
) -> TrendPoint:
    """Return the observation that a set's estimate makes."""
    return TrendPoint(day, estimate.e1rm_kg, observation_sd(estimate.reps_to_failure, rir, estimate.formula, settings))


def typical_error(sd_of_differences: float) -> float:
    """Return the SD of one test from the SD of test-retest differences, same unit. Source: Hopkins 2000 (MEMORY)."""
    return sd_of_differences / math.sqrt(2)


def detectable_change(error: float, z: float = 1.96) -> float:
    """Return the smallest difference of TWO tests that is more than noise, in the unit of the typical `error`.

    z 1.96 for 95 %, 1.645 for 90 %. Source: Hopkins 2000, Swinton 2018 (MEMORY).
    """
    return z * math.sqrt(2) * error
