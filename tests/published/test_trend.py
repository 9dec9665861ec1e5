"""The trend against statsmodels, the published noise of a 1RM, and its own calibration."""

import math
import random
from collections import Counter
from datetime import date, timedelta

import numpy as np
import pytest
from scipy.stats import norm, theilslopes
from statsmodels.robust.norms import TukeyBiweight
from statsmodels.robust.robust_linear_model import RLM
from statsmodels.tools import add_constant
from statsmodels.tsa.statespace.structural import UnobservedComponents

from periodization.trend import (
    DEFAULT_SETTINGS,
    TrendPoint,
    detectable_change,
    fit_trend,
    observation_sd,
    typical_error,
)
from periodization.trend.kalman import daily_drift
from tests.published.tables import number, table

START = date(2026, 1, 5)
SERIES = [(int(r["day"]), float(r["e1RM"])) for r in table("trend", "trend-1")]
SD = 0.045


def points(series, sd=SD):
    return [TrendPoint(START + timedelta(day), kg, sd) for day, kg in series]


def second_opinion(series, sds):
    """Filter the same series with statsmodels: daily grid, NaN where nothing was lifted, a variance per day."""
    length = series[-1][0] + 1
    grid, variances = np.full(length, np.nan), np.ones(length)
    for (day, kg), sd in zip(series, sds, strict=True):
        grid[day], variances[day] = math.log(kg), sd**2
    s = DEFAULT_SETTINGS
    drift = daily_drift(s.level_sd_week, s.slope_sd_week)
    first, grid[0] = grid[0], np.nan  # the first point is the prior of the level
    model = UnobservedComponents(grid, level="local linear trend")
    model.ssm.initialize_known(np.array([first, 0.0]), np.diag([variances[0], (s.slope_prior_sd / 7) ** 2]))
    model.update([1.0, drift.level, drift.slope])
    model.ssm["obs_cov"] = variances.reshape(1, 1, -1)
    found = model.ssm.filter()
    return found.filtered_state[:, -1], found.filtered_state_cov[:, :, -1]


def robust_levels(days, logs):
    """Return the last day's level by two outside methods that a single wrong entry cannot carry away."""
    bisquare = RLM(logs, add_constant(np.array(days, float)), M=TukeyBiweight()).fit()
    slope, middle, *_ = theilslopes(logs, days)
    return float(bisquare.params @ [1, days[-1]]), float(middle + slope * days[-1])


@pytest.mark.parametrize("times", [10, 0.1], ids=["ten-times", "a-tenth"])
@pytest.mark.parametrize("place", [0, 1, 2, 4, 8, 14], ids=lambda n: f"session-{n + 1}")
def test_level_after_a_slip_agrees_with_robust_regression(place, times):
    rng = random.Random(place)
    days = [4 * n for n in range(15)]
    logs = [math.log(80) + 0.001 * day + rng.gauss(0, SD) for day in days]
    logs[place] += math.log(times)
    level = fit_trend(
        points([(d, math.exp(log)) for d, log in zip(days, logs, strict=True)]), START + timedelta(days[-1])
    )
    for outside in robust_levels(days, logs):
        # The outside lines weigh all sessions alike and the filter the last ones more: they agree within one noise.
        assert math.log(level.level_kg.middle) == pytest.approx(outside, abs=SD)


def noises(series):
    """The learning days widen the points before day 10."""
    return [math.hypot(SD, DEFAULT_SETTINGS.learning_sd) if day < 10 else SD for day, _ in series]


@pytest.mark.parametrize("upto", range(2, len(SERIES) + 1), ids=lambda n: f"DERIVED-{n}-points")
def test_filter_agrees_with_statsmodels(upto):
    series = SERIES[:upto]
    state = fit_trend(points(series), START + timedelta(series[-1][0])).state
    mean, cov = second_opinion(series, noises(series))
    assert (state.level, state.slope) == pytest.approx(tuple(mean), rel=1e-7, abs=1e-12)
    ours = (state.var_level, state.covariance, state.var_slope)
    assert ours == pytest.approx((cov[0, 0], cov[0, 1], cov[1, 1]), rel=1e-6, abs=1e-15)


@pytest.mark.parametrize("seed", range(5), ids=lambda s: f"DERIVED-random-{s}")
def test_filter_agrees_with_statsmodels_on_random_series(seed):
    draw = random.Random(seed)
    days = sorted({0, *(draw.randrange(1, 150) for _ in range(25))})
    series = [(day, 100 * math.exp(0.0008 * day + draw.gauss(0, SD))) for day in days]
    state = fit_trend(points(series), START + timedelta(days[-1])).state
    mean, cov = second_opinion(series, noises(series))
    assert (state.level, state.slope) == pytest.approx(tuple(mean), rel=1e-6)
    assert (state.var_level, state.var_slope) == pytest.approx((cov[0, 0], cov[1, 1]), rel=1e-6)


@pytest.mark.parametrize("index", range(len(SERIES)), ids=lambda i: f"DERIVED-day{SERIES[i][0]}")
def test_worked_series(index):
    row = table("trend", "trend-1")[index]
    step = fit_trend(points(SERIES), START + timedelta(56)).steps[index]
    for interval, name in ((step.expected_kg, "expected"), (step.level_kg, "level")):
        if number(row[name]) is None:
            assert interval is None
            continue
        printed = [float(row[name + part]) for part in ("", " from", " to")]
        assert [interval.middle, interval.low, interval.high] == pytest.approx(printed, abs=0.0051)


def test_worked_slope():
    """DERIVED: the sentence under table trend-1."""
    trend = fit_trend(points(SERIES), START + timedelta(56))
    slope = trend.slope_percent_week
    assert [slope.middle, slope.low, slope.high] == pytest.approx([0.61, -0.50, 1.74], abs=0.0051)
    assert trend.reason.code == "trend_unclear"


@pytest.mark.parametrize("row", table("trend", "trend-2"), ids=lambda r: f"DERIVED-{r['reps to failure']}@{r['RIR']}")
def test_noise_of_an_observation(row):
    found = observation_sd(float(row["reps to failure"]), number(row["RIR"]), "epley")
    assert 100 * found == pytest.approx(float(row["percent"]), abs=0.0051)


def test_noise_is_never_under_the_published_error():
    """SOURCED: median CV 4.2 % of a tested 1RM (Grgic 2020)."""
    assert observation_sd(1, 0, "epley") == pytest.approx(0.042, abs=1e-12)
    assert all(observation_sd(r, i, "wathan") >= 0.042 for r in range(1, 21) for i in (0, 1, 3, 8, None))


@pytest.mark.parametrize("row", table("trend", "trend-3"), ids=lambda r: f"MEMORY-{r['CV %']}-{r['sure to']}")
def test_detectable_change(row):
    z = norm.ppf(0.5 + float(row["sure to"]) / 200)
    assert detectable_change(float(row["CV %"]), z) == pytest.approx(float(row["change %"]), abs=0.0051)


@pytest.mark.parametrize("row", table("trend", "trend-4"), ids=lambda r: f"DERIVED-{r['test']}")
def test_typical_error_of_open_data(row):
    error = typical_error(float(row["SD of differences"]))
    mean = (float(row["mean before"]) + float(row["mean after"])) / 2
    assert error == pytest.approx(float(row["typical error"]), abs=1e-3)
    assert 100 * error / mean == pytest.approx(float(row["percent of mean"]), abs=1e-3)


@pytest.mark.parametrize("row", table("trend", "trend-4"), ids=lambda r: f"DERIVED-{r['test']}")
def test_learning_jump_is_not_growth(row):
    """The rise that open data show after one session, then nothing more: never 'rising'."""
    jump = float(row["mean after"]) / float(row["mean before"])
    for sessions in range(2, 20):
        series = [(0, 100.0), *((4 * n, 100.0 * jump) for n in range(1, sessions))]
        trend = fit_trend(points(series), START + timedelta(series[-1][0]))
        assert trend.reason.code != "trend_rising"


def test_interval_is_ninety_percent():
    assert pytest.approx(norm.ppf(0.95), abs=1e-12) == DEFAULT_SETTINGS.z


def statements(percent_week: float, weeks: int = 12, stops_after: float = math.inf) -> Counter:
    """Count the statements over 200 invented clients: two sessions a week, growth that may stop."""
    found: Counter = Counter()
    sd = observation_sd(10, 2, "epley")
    for seed in range(200):
        draw = random.Random(seed)
        series = []
        for session in range(2 * weeks):
            day = session // 2 * 7 + session % 2 * 3
            growth = percent_week / 100 * min(day / 7, stops_after)
            series.append((day, 100 * math.exp(growth + draw.gauss(0, 0.042))))
        trend = fit_trend(points(series, sd), START + timedelta(series[-1][0]))
        found[trend.reason.code.removeprefix("trend_")] += 1
    return found


def same_shares(found: Counter, row: dict[str, str]) -> bool:
    names = ("rising", "flat", "unclear", "falling")
    return [found[name] / 2 for name in names] == [float(row[name]) for name in names]


@pytest.mark.parametrize("row", table("trend", "trend-5"), ids=lambda r: f"DERIVED-{r['true percent a week']}")
def test_how_often_which_statement(row):
    assert same_shares(statements(float(row["true percent a week"])), row)


@pytest.mark.parametrize("row", table("trend", "trend-6"), ids=lambda r: f"DERIVED-{r['weeks since']}")
def test_how_soon_a_plateau_is_seen(row):
    assert same_shares(statements(1, 10 + int(row["weeks since"]), stops_after=10), row)


def test_slope_interval_holds_the_truth_nine_times_in_ten():
    """DERIVED: series drawn from the model itself; 400 slopes, 90 % +- three binomial SDs."""
    s, held = DEFAULT_SETTINGS, 0
    drift = daily_drift(s.level_sd_week, s.slope_sd_week)
    for seed in range(400):
        draw = random.Random(seed)
        level, slope, series = math.log(100), draw.gauss(0, s.slope_prior_sd / 7), []
        for day in range(85):
            if day % 4 == 0:
                series.append((day, math.exp(level + draw.gauss(0, SD))))
            if day < 84:
                level += slope + draw.gauss(0, math.sqrt(drift.level))
                slope += draw.gauss(0, math.sqrt(drift.slope))
        trend = fit_trend(points(series), START + timedelta(84), first_exposure=START - timedelta(60))
        held += trend.slope_percent_week.holds(100 * math.expm1(7 * slope))
    assert held / 400 == pytest.approx(0.90, abs=0.045)
