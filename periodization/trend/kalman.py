"""A local linear trend in daily steps, filtered forward.

level(t+1) = level(t) + slope(t) + noise;  slope(t+1) = slope(t) + noise;  observed(t) = level(t) + noise of that point.
The same model as statsmodels' UnobservedComponents("local linear trend") with a variance of its own per observation.
"""

import math
from dataclasses import dataclass

DAYS_PER_WEEK = 7


@dataclass(frozen=True, slots=True)
class State:
    """Mean and covariance of (level, slope per day)."""

    level: float
    slope: float
    var_level: float
    covariance: float
    var_slope: float


@dataclass(frozen=True, slots=True)
class Drift:
    """Variances added to level and slope in one day."""

    level: float
    slope: float


def daily_drift(level_sd_week: float, slope_sd_week: float) -> Drift:
    """Turn weekly SDs (the slope's in change per week, per week) into daily variances."""
    return Drift(level_sd_week**2 / DAYS_PER_WEEK, (slope_sd_week / DAYS_PER_WEEK) ** 2 / DAYS_PER_WEEK)


def advance(state: State, days: int, drift: Drift) -> State:
    """Return the state `days` later without an observation; uncertainty only grows."""
    for _ in range(days):
        state = State(
            state.level + state.slope,
            state.slope,
            state.var_level + 2 * state.covariance + state.var_slope + drift.level,
            state.covariance + state.var_slope,
            state.var_slope + drift.slope,
        )
    return state


def update(state: State, observed: float, variance: float) -> State:
    """Return the state after seeing `observed` with `variance`."""
    total = state.var_level + variance
    gain_level, gain_slope = state.var_level / total, state.covariance / total
    surprise = observed - state.level
    return State(
        state.level + gain_level * surprise,
        state.slope + gain_slope * surprise,
        state.var_level * variance / total,
        state.covariance * variance / total,
        max(0.0, state.var_slope - gain_slope * state.covariance),
    )


def surprise(state: State, observed: float, variance: float) -> float:
    """Return how many SDs `observed` lies from what the state expects."""
    return (observed - state.level) / math.sqrt(state.var_level + variance)
