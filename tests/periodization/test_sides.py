"""Left against right: the worked table, and what holds for any two estimates."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.sides import side_difference
from tests.published.tables import table

loads = st.floats(0.5, 500)
errors = st.floats(0, 0.5)


@pytest.mark.parametrize("row", table("sides", "sides-1"), ids=lambda r: f"DERIVED-{r['left']}-{r['right']}")
def test_worked_table(row):
    sd = float(row["SD of each"])
    found = side_difference(float(row["left"]), float(row["right"]), sd, sd)
    for value, column in ((found.percent, "difference"), (found.low, "low"), (found.high, "high")):
        assert value == pytest.approx(float(row[column]), abs=0.006)


@given(loads, loads, errors, errors)
def test_changing_the_sides_changes_the_sign_and_nothing_else(left, right, left_sd, right_sd):
    one, other = side_difference(left, right, left_sd, right_sd), side_difference(right, left, right_sd, left_sd)
    assert one.percent == pytest.approx(-other.percent)
    assert (one.low, one.high) == pytest.approx((-other.high, -other.low))


@given(loads, loads, errors, errors)
def test_the_interval_holds_the_difference_and_stays_under_a_hundred_percent(left, right, left_sd, right_sd):
    found = side_difference(left, right, left_sd, right_sd)
    assert -100 < found.low <= found.percent <= found.high < 100


@pytest.mark.parametrize(
    "bad", [(0, 40, 0.1, 0.1), (40, -1, 0.1, 0.1), (40, float("nan"), 0.1, 0.1), (40, 40, -0.1, 0)]
)
def test_what_is_no_estimate_is_refused(bad):
    with pytest.raises(ValueError, match=r"must be above|cannot be below"):
        side_difference(*bad)
