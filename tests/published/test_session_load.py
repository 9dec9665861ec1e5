"""Session load against Foster, Williams, pandas and derived values."""

import math
from pathlib import Path

import pandas as pd
import pytest

import periodization
from periodization.session_load import describe_load, ewma, monotony, rolling_ratio, session_load, strain
from tests.published.tables import number, numbers, places, table

STEP = [50.0] * 28 + [100.0] * 7


@pytest.mark.parametrize("row", table("session-load", "load-1"), ids=lambda r: f"SOURCED-{r['RPE']}x{r['minutes']}")
def test_load_is_rpe_times_minutes(row):
    assert session_load(float(row["RPE"]), float(row["minutes"])) == float(row["load"])


def _week_id(row):
    return f"{row['standing']}-{row['source']}"


@pytest.mark.parametrize("row", table("session-load", "load-2"), ids=_week_id)
@pytest.mark.parametrize(("ddof", "suffix"), [(1, ""), (0, " n")], ids=["n-1", "n"])
def test_monotony_and_strain_of_a_week(row, ddof, suffix):
    daily = numbers(row["daily loads"])
    value = monotony(daily, ddof)
    if number(row["monotony" + suffix]) is None:
        assert value is None
        assert strain(sum(daily), value) is None
        return
    assert value == pytest.approx(float(row["monotony" + suffix]), abs=1e-4)
    assert strain(sum(daily), value) == pytest.approx(float(row["strain" + suffix]), abs=0.01)


@pytest.mark.parametrize("row", table("session-load", "load-2")[:5], ids=_week_id)
def test_conventions_differ_by_root_seven_sixths(row):
    """DERIVED: algebra."""
    daily = numbers(row["daily loads"])
    assert monotony(daily, 0) / monotony(daily, 1) == pytest.approx(math.sqrt(7 / 6), abs=1e-9)


@pytest.mark.parametrize("row", table("session-load", "load-2")[:5], ids=_week_id)
def test_monotony_agrees_with_pandas(row):
    daily = pd.Series(numbers(row["daily loads"]))
    assert monotony(list(daily)) == pytest.approx(daily.mean() / daily.std(ddof=1), rel=1e-12)


def test_foster_printed_strain():
    """SOURCED: Foster 2001, 3400 x 1.26 = 4284."""
    assert strain(3400, 1.26) == pytest.approx(4284, abs=1e-9)


def test_foster_printed_week_is_not_rpe_times_minutes():
    """SOURCED: the printed loads add to 3400, RPE x minutes to 3780; three of nine rows differ."""
    rows = table("session-load", "load-3")
    computed = [session_load(float(r["RPE"]), float(r["minutes"])) for r in rows]
    assert computed == [float(r["RPE x minutes"]) for r in rows]
    printed = [float(r["printed"]) for r in rows]
    assert (sum(printed), sum(computed)) == (3400, 3780)
    assert sum(p != c for p, c in zip(printed, computed, strict=True)) == 3


@pytest.mark.parametrize("ddof", [0, 1])
@pytest.mark.parametrize("row", table("session-load", "load-2")[3:5], ids=_week_id)
def test_no_convention_gives_fosters_printed_monotony(row, ddof):
    """DERIVED: why n - 1 is our choice and not his."""
    assert abs(monotony(numbers(row["daily loads"]), ddof) - 1.26) > 0.03


@pytest.mark.parametrize("row", table("session-load", "load-4"), ids=lambda r: f"DERIVED-day{r['day']}")
def test_ewma_of_an_impulse(row):
    found = ewma([100, 0, 0, 0, 0, 0, 0], 7)[int(row["day"]) - 1]
    assert found == pytest.approx(float(row["EWMA"]), abs=places(row["EWMA"]))


@pytest.mark.parametrize(("span", "weight"), [(7, 0.25), (28, 0.0689655)])
def test_ewma_weight(span, weight):
    """SOURCED: Williams 2017, weight 2 / (N + 1)."""
    assert ewma([0, 1], span)[1] == pytest.approx(weight, abs=1e-7)


def _figures():
    found = describe_load(STEP)
    return {
        "EWMA 7": found.acute,
        "EWMA 28": found.chronic,
        "ratio of the two": found.ratio,
        "ratio of rolling means, coupled": rolling_ratio(STEP),
        "ratio of rolling means, uncoupled": rolling_ratio(STEP, coupled=False),
    }


@pytest.mark.parametrize("row", table("session-load", "load-5"), ids=lambda r: f"DERIVED-{r['figure']}")
def test_step_of_load(row):
    assert _figures()[row["figure"]] == pytest.approx(float(row["value"]), abs=1e-6)


@pytest.mark.parametrize("span", [7, 28])
def test_step_closed_form(span):
    """DERIVED: 100 - 50 (1 - a)^7."""
    assert ewma(STEP, span)[-1] == pytest.approx(100 - 50 * (1 - 2 / (span + 1)) ** 7, abs=1e-9)


def test_coupled_ratio_never_exceeds_four():
    """DERIVED: all load in the last week gives exactly 4."""
    assert rolling_ratio([0.0] * 21 + [80.0] * 7) == pytest.approx(4.0, abs=1e-12)


def test_constant_load_gives_ratio_one():
    """DERIVED."""
    assert describe_load([70.0] * 40).ratio == pytest.approx(1.0, abs=1e-12)
    assert rolling_ratio([70.0] * 40) == pytest.approx(1.0, abs=1e-12)


@pytest.mark.parametrize("span", [7, 28])
def test_ewma_agrees_with_pandas(span):
    series = [float((37 * day) % 11 * 40) for day in range(90)]
    theirs = pd.Series(series).ewm(span=span, adjust=False).mean()
    assert ewma(series, span) == pytest.approx(list(theirs), abs=1e-9)


def test_load_drives_no_rule():
    """SOURCED (dispute): Impellizzeri 2021. No other module of the arithmetic may read load figures."""
    root = Path(periodization.__path__[0])
    readers = [p.name for p in root.rglob("*.py") if "session_load" in p.read_text() and p.stem != "session_load"]
    assert readers == []
