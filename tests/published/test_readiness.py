"""Check-in totals and baselines against the published form and scipy."""

from datetime import date, timedelta

import pytest
from scipy.stats import median_abs_deviation, norm

from periodization.readiness import ITEMS, MAD_TO_SD, CheckIn, baseline, readiness, total
from tests.published.tables import number, numbers, table

TODAY = date(2026, 3, 2)


def check_in(points: float, days_ago: int = 0) -> CheckIn:
    return CheckIn(TODAY - timedelta(days_ago), *[points / 5] * 5)


def earlier(row):
    return [check_in(points, n + 1) for n, points in enumerate(numbers(row["earlier totals"]))]


@pytest.mark.parametrize("row", table("readiness", "readiness-1"), ids=lambda r: f"MEMORY-{r['total']}")
def test_total_is_the_sum(row):
    assert total(CheckIn(TODAY, *(float(row[item]) for item in ITEMS))) == float(row["total"])


@pytest.mark.parametrize("item", ITEMS)
def test_lower_is_worse_for_every_item(item):
    """SOURCED (form): 5 is the good end of every item."""
    good = dict.fromkeys(ITEMS, 4.0)
    assert total(CheckIn(TODAY, **{**good, item: 1.0})) < total(CheckIn(TODAY, **good))


@pytest.mark.parametrize("row", table("readiness", "readiness-2"), ids=lambda r: f"DERIVED-{r['today']}-{r['state']}")
def test_day_against_own_baseline(row):
    found = readiness(check_in(float(row["today"])), earlier(row))
    assert found.state == row["state"]
    for value, column in ((found.median, "median"), (found.spread, "spread"), (found.distance, "distance")):
        expected = number(row[column])
        assert value is None if expected is None else value == pytest.approx(expected, abs=1e-3)


@pytest.mark.parametrize("row", table("readiness", "readiness-2")[:6], ids=lambda r: f"DERIVED-{r['today']}")
def test_own_spread_agrees_with_scipy(row):
    found = baseline(earlier(row), TODAY)
    assert found.own_spread == pytest.approx(float(row["own spread"]), abs=1e-4)
    assert found.own_spread == pytest.approx(
        median_abs_deviation(numbers(row["earlier totals"]), scale="normal"), rel=1e-4
    )


def test_mad_constant():
    """DERIVED: 1 / quantile(0.75) of the normal distribution."""
    assert pytest.approx(1 / norm.ppf(0.75), abs=5e-5) == MAD_TO_SD
