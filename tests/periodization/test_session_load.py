"""Edges and properties of the load description."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.session_load import (
    daily_series,
    describe_load,
    ewma,
    monotony,
    rolling_ratio,
    session_load,
    strain,
)

FIRST = date(2026, 3, 2)
loads = st.lists(st.integers(0, 900).map(float), min_size=1, max_size=60)


@pytest.mark.parametrize(("rpe", "minutes"), [(-1, 10), (11, 10), (5, -1), (5, float("nan")), (float("nan"), 5)])
def test_impossible_load_is_refused(rpe, minutes):
    with pytest.raises(ValueError, match=r"RPE|duration"):
        session_load(rpe, minutes)


def test_rest_days_are_zero_and_days_outside_are_ignored():
    made = [(FIRST, 100.0), (FIRST, 50.0), (FIRST + timedelta(2), 70.0), (FIRST + timedelta(9), 999.0)]
    assert daily_series(made, FIRST, FIRST + timedelta(3)) == (150, 0, 70, 0)


@given(loads.filter(lambda x: len(set(x)) > 1), st.floats(0.1, 50))
def test_monotony_does_not_depend_on_the_unit(daily, factor):
    assert monotony([factor * x for x in daily]) == pytest.approx(monotony(daily))


@pytest.mark.parametrize("daily", [[], [300.0], [0.0] * 7, [0.1] * 7])
def test_monotony_is_undefined_without_spread(daily):
    assert monotony(daily) is None
    assert strain(sum(daily), monotony(daily)) is None


@given(loads, st.sampled_from([7, 28]))
def test_average_stays_between_the_extremes(series, span):
    assert all(min(series) - 1e-9 <= x <= max(series) + 1e-9 for x in ewma(series, span))


@given(st.lists(st.integers(0, 900).map(float), min_size=28, max_size=60))
def test_coupled_ratio_is_at_most_four(series):
    ratio = rolling_ratio(series)
    assert ratio is None or 0 <= ratio <= 4 + 1e-9


def test_ratio_needs_its_days_and_something_to_divide_by():
    assert rolling_ratio([50.0] * 27) is None
    assert rolling_ratio([50.0] * 34, coupled=False) is None
    assert rolling_ratio([0.0] * 28) is None


def test_no_history_is_not_described():
    assert describe_load([]) is None


def test_days_without_any_load_have_no_ratio_and_no_monotony():
    found = describe_load([0.0] * 30)
    assert (found.week_load, found.ratio, found.monotony, found.strain) == (0, None, None, None)
    assert [note.code for note in found.notes] == ["load_is_description", "monotony_undefined"]


@given(loads)
def test_every_description_says_that_it_is_one(series):
    assert describe_load(series).notes[0].code == "load_is_description"


def test_fewer_than_seven_days_have_no_monotony():
    found = describe_load([100.0, 0.0, 200.0])
    assert found.monotony is None
    assert found.week_load == 300
