"""From a series of e1RM points to level, slope, their 90 % intervals, and what may be said."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from periodization.rules import Reason, Rule
from periodization.trend.kalman import DAYS_PER_WEEK, State, advance, daily_drift, surprise, update
from periodization.trend.settings import DEFAULT_SETTINGS, TrendPoint, TrendSettings
from periodization.trend.start import start_of
from periodization.trend.statement import statement

RULE = Rule("trend.local_linear", 2, "Kalman filter; noise from Grgic 2020 and Hackett 2017; drift and start chosen")


@dataclass(frozen=True, slots=True)
class Interval:
    """A middle and its 90 % interval (or what `TrendSettings.z` says)."""

    middle: float
    low: float
    high: float

    def holds(self, value: float) -> bool:
        """Say whether `value` lies inside, bounds included."""
        return self.low <= value <= self.high


@dataclass(frozen=True, slots=True)
class TrendStep:
    """One day with a point. `expected` was known BEFORE the point was seen (None on the first day), `level` after.

    `surprise` is the distance between point and expectation in SDs; negative is weaker than expected.
    """

    day: date
    observed_kg: float
    expected_kg: Interval | None
    level_kg: Interval
    surprise: float | None


@dataclass(frozen=True, slots=True)
class Trend:
    """Level in kg and slope in percent a week on `day`, which may be later than the last point.

    `reason.code` is trend_none, trend_too_few, trend_rising, trend_falling, trend_flat or trend_unclear.
    """

    day: date
    level_kg: Interval | None
    slope_percent_week: Interval | None
    reason: Reason
    steps: tuple[TrendStep, ...]
    state: State | None


def fit_trend(
    points: Sequence[TrendPoint],
    day: date,
    first_exposure: date | None = None,
    settings: TrendSettings = DEFAULT_SETTINGS,
) -> Trend:
    """Filter the points up to `day`; later ones change nothing, order does not matter.

    `first_exposure` is the client's first session with the exercise, which may lie before the points; unknown, it is
    the first point, so that a learning jump is never taken for growth.
    """
    days = _per_day([p for p in points if p.day <= day and p.e1rm_kg > 0 and p.sd > 0])
    if not days:
        return Trend(day, None, None, Reason("trend_none"), (), None)
    drift = daily_drift(settings.level_sd_week, settings.slope_sd_week)
    learning_end = (first_exposure or days[0].day) + timedelta(settings.learning_days)
    start = start_of(days, settings)
    steps: list[TrendStep] = []
    state, at = State(0.0, 0.0, 0.0, 0.0, 0.0), days[0].day
    for place, point in enumerate(days):
        y, variance = math.log(point.e1rm_kg), point.sd**2
        if point.day < learning_end:
            variance += settings.learning_sd**2
        if not steps:
            if place in start.doubtful:
                # The first ones together stand for it, no surer than the distance at which it was not believed.
                y, variance = start.level, variance + math.log1p(settings.start_limit) ** 2
            state = State(y, 0.0, variance, 0.0, (settings.slope_prior_sd / DAYS_PER_WEEK) ** 2)
            steps.append(TrendStep(point.day, point.e1rm_kg, None, _level(state, settings.z), None))
            continue
        before = advance(state, (point.day - at).days, drift)
        off = surprise(before, y, variance)
        expected = _level(before, settings.z, variance)
        if place in start.doubtful:
            state, at = before, point.day
            steps.append(TrendStep(point.day, point.e1rm_kg, expected, _level(state, settings.z), off))
            continue
        if abs(off) > settings.outlier_z:
            # A slip of the pen (600 for 60) must not carry the level away; the point stays, with less weight.
            variance = (before.var_level + variance) * (off / settings.outlier_z) ** 2 - before.var_level
        state, at = update(before, y, variance), point.day
        steps.append(TrendStep(point.day, point.e1rm_kg, expected, _level(state, settings.z), off))
    state = advance(state, (day - at).days, drift)
    slope = _slope(state, settings.z)
    span = (days[-1].day - days[0].day).days
    reason = statement(slope.low, slope.high, len(days), span, settings)
    return Trend(day, _level(state, settings.z), slope, reason, tuple(steps), state)


def expect(trend: Trend, day: date, sd: float, settings: TrendSettings = DEFAULT_SETTINGS) -> Interval | None:
    """Return the e1RM in kg expected of a point with `sd` on `day` (not before the trend's); None without a level."""
    if trend.state is None or day < trend.day:
        return None
    drift = daily_drift(settings.level_sd_week, settings.slope_sd_week)
    return _level(advance(trend.state, (day - trend.day).days, drift), settings.z, sd**2)


def _per_day(points: Sequence[TrendPoint]) -> list[TrendPoint]:
    """Merge the points of a day, weighted by 1 / variance; the noise of the day is shared, so it does not shrink."""
    by_day: dict[date, list[TrendPoint]] = {}
    for point in points:
        by_day.setdefault(point.day, []).append(point)
    merged = []
    for day, same in sorted(by_day.items()):
        if len(same) == 1:
            merged.append(same[0])
            continue
        weight = math.fsum(1 / p.sd**2 for p in same)
        log = math.fsum(math.log(p.e1rm_kg) / p.sd**2 for p in same) / weight
        merged.append(TrendPoint(day, math.exp(log), min(p.sd for p in same)))
    return merged


def _level(state: State, z: float, extra: float = 0.0) -> Interval:
    half = z * math.sqrt(state.var_level + extra)
    return Interval(math.exp(state.level), math.exp(state.level - half), math.exp(state.level + half))


def _slope(state: State, z: float) -> Interval:
    half = z * math.sqrt(state.var_slope)
    middle, low, high = (
        100 * math.expm1(DAYS_PER_WEEK * s) for s in (state.slope, state.slope - half, state.slope + half)
    )
    return Interval(middle, low, high)
