"""Properties of the trend and what it may say."""

import math
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.strength import estimate_e1rm
from periodization.trend import TrendPoint, TrendSettings, expect, fit_trend, report_error, trend_point

START = date(2026, 1, 5)
DAY = START + timedelta(100)
point = st.builds(
    lambda ago, kg, sd: TrendPoint(DAY - timedelta(ago), kg, sd),
    st.integers(0, 100),
    st.floats(20, 300),
    st.floats(0.02, 0.2),
)
series = st.lists(point, min_size=1, max_size=15, unique_by=lambda p: p.day)


def straight(weekly: float, sessions: int = 30, sd: float = 0.045):
    return [TrendPoint(START + timedelta(3 * n), 100 * math.exp(weekly * 3 * n / 7), sd) for n in range(sessions)]


def test_no_history_says_so():
    trend = fit_trend([], DAY)
    assert (trend.level_kg, trend.slope_percent_week, trend.reason.code) == (None, None, "trend_none")
    assert expect(trend, DAY, 0.045) is None


@pytest.mark.parametrize("sessions", [1, 2, 3])
def test_a_few_sessions_have_a_level_but_no_statement(sessions):
    points = straight(0.02, sessions)
    trend = fit_trend(points, points[-1].day)
    assert trend.reason.code == "trend_too_few"
    assert trend.level_kg.holds(100)


def test_few_sessions_over_many_weeks_are_too_few():
    points = [TrendPoint(START + timedelta(28 * n), 100 * 1.1**n, 0.02) for n in range(3)]
    assert fit_trend(points, points[-1].day).reason.params == {"points": 3, "minimum": 4}


def test_many_sessions_in_a_few_days_are_too_few_as_well():
    points = [TrendPoint(START + timedelta(n), 100 + 5 * n, 0.02) for n in range(8)]
    assert fit_trend(points, points[-1].day).reason.code == "trend_too_few"


@pytest.mark.parametrize(
    ("weekly", "code"),
    [(0.02, "trend_rising"), (-0.02, "trend_falling"), (0.0, "trend_flat"), (0.006, "trend_unclear")],
)
def test_statement_follows_the_interval(weekly, code):
    points = straight(weekly)
    trend = fit_trend(points, points[-1].day)
    low, high = trend.slope_percent_week.low, trend.slope_percent_week.high
    assert trend.reason.code == code
    assert trend.reason.params == {"low": round(low, 2), "high": round(high, 2)}
    assert trend.slope_percent_week.holds(100 * math.expm1(weekly))


@given(
    series,
    st.lists(st.builds(lambda d, kg: TrendPoint(DAY + timedelta(d), kg, 0.05), st.integers(1, 60), st.floats(1, 900))),
)
def test_later_points_and_order_change_nothing(points, later):
    assert fit_trend(points, DAY) == fit_trend(points[::-1] + later, DAY)


@given(series, st.floats(0.3, 4))
def test_the_unit_scales_the_level_and_leaves_the_slope(points, factor):
    here = fit_trend(points, DAY)
    there = fit_trend([TrendPoint(p.day, p.e1rm_kg * factor, p.sd) for p in points], DAY)
    assert there.level_kg.middle == pytest.approx(here.level_kg.middle * factor)
    assert there.slope_percent_week.low == pytest.approx(here.slope_percent_week.low, abs=1e-7)


@given(series)
def test_intervals_hold_their_middle_and_missing_weeks_widen_them(points):
    now, later = fit_trend(points, DAY), fit_trend(points, DAY + timedelta(30))
    for trend in (now, later):
        assert trend.level_kg.low < trend.level_kg.middle < trend.level_kg.high
    assert later.state.var_level > now.state.var_level
    assert later.state.var_slope > now.state.var_slope


@given(series, st.integers(0, 40), st.floats(0.02, 0.1))
def test_a_noisier_point_is_expected_in_a_wider_interval(points, days, sd):
    trend = fit_trend(points, DAY)
    narrow, wide = (expect(trend, DAY + timedelta(days), noise) for noise in (sd, 2 * sd))
    assert wide.low < narrow.low < narrow.middle < narrow.high < wide.high


def test_nothing_is_expected_of_the_past():
    assert expect(fit_trend(straight(0), DAY), DAY - timedelta(1), 0.045) is None


def test_expectation_does_not_know_the_point_it_is_compared_with():
    points = straight(0)
    odd = [*points[:-1], TrendPoint(points[-1].day, 80, 0.045)]
    usual, fallen = (fit_trend(some, points[-1].day).steps[-1] for some in (points, odd))
    assert usual.expected_kg == fallen.expected_kg
    assert fallen.surprise < -1.645 < usual.surprise
    assert not fallen.expected_kg.holds(80)


def test_a_slip_of_the_pen_does_not_carry_the_level_away():
    points = straight(0)
    slipped = [*points[:-1], TrendPoint(points[-1].day, 1000, 0.045)]
    level = fit_trend(slipped, points[-1].day).level_kg.middle
    assert 100 < level < 107


def test_first_exposure_before_the_window_lifts_the_guard():
    points = straight(0.02, 5)
    new = fit_trend(points, points[-1].day).slope_percent_week.middle
    known = fit_trend(points, points[-1].day, first_exposure=START - timedelta(90)).slope_percent_week.middle
    assert 0 < new < known


def test_several_points_of_a_day_count_as_one_and_no_surer():
    one = [*straight(0, 5), TrendPoint(START + timedelta(20), 100, 0.05)]
    two = [*one, TrendPoint(START + timedelta(20), 104, 0.05)]
    first, second = (fit_trend(some, DAY) for some in (one, two))
    assert len(first.steps) == len(second.steps)
    assert second.state.var_level == pytest.approx(first.state.var_level)
    assert second.steps[-1].observed_kg == pytest.approx(math.sqrt(100 * 104))


@pytest.mark.parametrize("bad", [TrendPoint(START, 0, 0.05), TrendPoint(START, -5, 0.05), TrendPoint(START, 100, 0)])
def test_points_that_say_nothing_are_left_out(bad):
    assert fit_trend([bad], DAY).reason.code == "trend_none"


def test_unknown_effort_is_the_noisiest():
    known, unknown = (trend_point(START, estimate_e1rm(100, 8, rir), rir) for rir in (2, None))
    assert unknown.sd > known.sd
    assert report_error(None) >= max(report_error(r / 2) for r in range(40))


@given(st.floats(0, 15), st.floats(0, 15))
def test_report_error_never_falls(one, other):
    low, high = sorted((one, other))
    assert report_error(low) <= report_error(high)


def test_assumptions_are_arguments():
    points = straight(0.006)
    strict = TrendSettings(flat_limit=0.03)
    assert fit_trend(points, points[-1].day, settings=strict).reason.code == "trend_flat"


@st.composite
def slipped(draw):
    """Return a series of 5 or more sessions as it was, and with one load of it many times too high or too low."""
    count, apart, weekly = draw(st.integers(5, 30)), draw(st.integers(2, 7)), draw(st.floats(-0.01, 0.02))
    wobble = draw(st.lists(st.floats(-0.09, 0.09), min_size=count, max_size=count))
    points = [
        TrendPoint(START + timedelta(apart * n), 80 * math.exp(weekly * apart * n / 7 + noise), 0.05)
        for n, noise in enumerate(wobble)
    ]
    place, times = draw(st.integers(0, count - 1)), draw(st.floats(3, 12))
    wrong = points[place].e1rm_kg * (times if draw(st.booleans()) else 1 / times)
    return points, [*points[:place], TrendPoint(points[place].day, wrong, 0.05), *points[place + 1 :]]


@given(slipped())
def test_one_slip_anywhere_hardly_moves_the_level(both):
    meant, typed = (fit_trend(points, points[-1].day).level_kg.middle for points in both)
    assert abs(math.log(typed / meant)) < 0.12


@pytest.mark.parametrize("place", range(5))
@pytest.mark.parametrize("times", [10, 0.1])
def test_a_slip_in_the_first_sessions_is_shown_and_not_believed(place, times):
    points = straight(0, 8)
    points[place] = TrendPoint(points[place].day, 100 * times, 0.045)
    trend = fit_trend(points, points[-1].day)
    assert trend.steps[place].observed_kg == pytest.approx(100 * times)
    assert all(80 < step.level_kg.middle < 125 for step in trend.steps)
    assert trend.level_kg.middle == pytest.approx(100, rel=0.02)


@pytest.mark.parametrize("order", [(80, 800), (800, 80)])
def test_of_two_that_contradict_each_other_the_lighter_is_believed(order):
    points = [TrendPoint(START + timedelta(7 * n), kg, 0.045) for n, kg in enumerate(order)]
    assert fit_trend(points, points[-1].day).level_kg.middle == pytest.approx(80, rel=0.01)


def test_a_first_session_that_was_only_light_does_not_become_growth():
    points = [TrendPoint(START, 50, 0.1), *(TrendPoint(START + timedelta(4 * n), 100, 0.045) for n in range(1, 8))]
    trend = fit_trend(points, points[-1].day)
    assert trend.reason.code != "trend_rising"
    assert trend.level_kg.middle == pytest.approx(100, rel=0.02)
