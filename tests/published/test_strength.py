"""e1RM equations against published and derived values. The standing of each source is in the test's id or comment."""

import pytest
from scipy.optimize import brentq

from periodization.strength import FORMULAS, estimate_e1rm, load_for, percent_table
from tests.published.tables import number, places, table

FACTORS = [
    pytest.param(int(row["r"]), name, float(cell), id=f"DERIVED-{name}-{row['r']}")
    for row in table("strength", "strength-1")
    for name, cell in row.items()
    if name != "r"
]
CHART = {int(row["reps"]): float(row["chart %"]) for row in table("strength", "strength-5")}


@pytest.mark.parametrize(("reps", "name", "expected"), FACTORS)
def test_equation_gives_its_value(reps, name, expected):
    assert FORMULAS[name].predict(100, reps) == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize("row", table("strength", "strength-2"), ids=lambda r: f"DERIVED-{r['equation']}")
def test_equation_as_printed_at_one_repetition(row):
    formula = FORMULAS[row["equation"]]
    assert 100 * formula.ratio(1.0) == pytest.approx(float(row["kg"]), abs=1e-4)
    assert formula.predict(100, 1) == 100


def _set(row):
    return float(row["load kg"]), int(row["reps"]), number(row["RIR"]), row["equation"]


@pytest.mark.parametrize(
    "row",
    table("strength", "strength-3"),
    ids=lambda r: f"DERIVED-{r['load kg']}x{r['reps']}@{r['RIR']}-{r['equation']}",
)
def test_set_gives_estimate_and_confidence(row):
    estimate = estimate_e1rm(*_set(row))
    if row["e1RM kg"] == "none":
        assert estimate is None
        return
    assert estimate.e1rm_kg == pytest.approx(float(row["e1RM kg"]), abs=1e-3)
    assert estimate.confidence == pytest.approx(float(row["confidence"]), abs=0.0051)
    assert list(estimate.reasons) == ([] if row["lowered by"] == "-" else row["lowered by"].split())


@pytest.mark.parametrize("row", table("strength", "strength-4"), ids=lambda r: f"DERIVED-{r['reps']}@{r['RIR']}")
@pytest.mark.parametrize("name", FORMULAS)
def test_load_for_reps_and_rir(row, name):
    load = load_for(float(row["e1RM kg"]), float(row["reps"]), float(row["RIR"]), name)
    assert load == pytest.approx(float(row[name]), abs=1e-4)


def test_epley_and_brzycki_meet_at_ten():
    """DERIVED (1 + 10/30 = 36/27). The printed Brzycki constants are rounded, so they meet within 0.04 %."""
    epley, brzycki = FORMULAS["epley"], FORMULAS["brzycki"]
    assert epley.factor(10) == pytest.approx(36 / (37 - 10), abs=1e-9)
    assert brzycki.factor(10) == pytest.approx(epley.factor(10), rel=4e-4)
    assert all(epley.factor(r) > brzycki.factor(r) for r in range(2, 10))
    assert all(brzycki.factor(r) > epley.factor(r) for r in range(11, 16))


def test_225_lb_for_12_3_is_316_lb():
    """SOURCED: college football players, Epley 316.3 lb at a mean of 12.3 repetitions (printed with 0.033)."""
    assert FORMULAS["epley"].predict(225, 12.3) == pytest.approx(316.3, abs=1.0)


def test_brzycki_overshoots_past_ten():
    """SOURCED (direction): tested 310.0 lb, Brzycki 345.8 lb at a mean of 12.3 repetitions."""
    assert FORMULAS["brzycki"].predict(225, 12.3) > FORMULAS["epley"].predict(225, 12.3) > 310


@pytest.mark.parametrize("row", table("strength", "strength-7"), ids=lambda r: f"SOURCED-{r['equation']}")
def test_five_rep_bench_regression(row):
    """SOURCED: Reynolds 2006, 1RM = 1.1307 x 5RM + 0.6999, SEE 2.98 kg."""
    off = abs(FORMULAS[row["equation"]].predict(100, 5) - (1.1307 * 100 + 0.6999))
    assert (off <= 2.98) == (row["inside"] == "yes")


@pytest.mark.parametrize("name", FORMULAS)
def test_five_rep_leg_press_regression(name):
    """SOURCED: Reynolds 2006, leg press 1RM = 1.0970 x 5RM + 14.2546, SEE 16.16 kg: every equation is inside."""
    assert FORMULAS[name].predict(100, 5) == pytest.approx(1.0970 * 100 + 14.2546, abs=16.16)


@pytest.mark.parametrize("name", FORMULAS)
def test_confidence_falls_past_ten_repetitions(name):
    """SOURCED (rule): Reynolds 2006, no more than 10 repetitions."""
    trusted, past = (estimate_e1rm(100, r, 0, name).confidence for r in (9, 11))
    assert trusted == 1
    assert past < 1


@pytest.mark.parametrize(("near", "far"), [(3, 4), (4, 5), (5, 7)])
def test_confidence_falls_far_from_failure(near, far):
    """SOURCED (direction): Hackett 2017, about 1 off with 0-5 left, over 2 off with 7-10 left."""
    assert estimate_e1rm(100, 3, far).confidence < estimate_e1rm(100, 3, near).confidence


@pytest.mark.parametrize("name", ["epley", "brzycki", "lander", "wathan"])
@pytest.mark.parametrize("reps", CHART)
def test_percent_of_1rm_is_near_the_load_chart(name, reps):
    """SOURCED: load chart, 1 to 10 repetitions."""
    assert FORMULAS[name].percent(reps) == pytest.approx(CHART[reps], abs=2.5)


@pytest.mark.parametrize("row", table("strength", "strength-5"), ids=lambda r: f"DERIVED-{r['reps']}")
def test_percent_table_of_the_page(row):
    percents = {r.reps: r.percent for r in percent_table("epley")}
    assert percents[int(row["reps"])] == pytest.approx(float(row["epley %"]), abs=places(row["epley %"]))


@pytest.mark.parametrize("row", table("strength", "strength-6"), ids=lambda r: f"DERIVED-{r['equation']}")
def test_largest_gap_to_the_load_chart(row):
    percents = {r.reps: r.percent for r in percent_table(row["equation"])}
    gap = max(abs(percents[r] - CHART[r]) for r in range(2, 11))
    assert gap == pytest.approx(float(row["points"]), abs=0.0051)


@pytest.mark.parametrize(("load", "reps", "chart_load"), [(230, 5, 200.1), (230, 9, 177.1), (100, 8, 80)])
def test_worked_rows_of_the_load_chart(load, reps, chart_load):
    """SOURCED: the chart's own worked rows, within the 2.5 points that the equations keep to it."""
    assert load_for(load, reps, 0) == pytest.approx(chart_load, abs=0.025 * load)


@pytest.mark.parametrize("name", FORMULAS)
def test_percent_falls_with_every_repetition(name):
    """SOURCED (direction): Nuzzo 2024, repetitions fall as the percentage rises."""
    percents = [row.percent for row in percent_table(name)]
    assert percents == sorted(percents, reverse=True)
    assert len(set(percents)) == 15


@pytest.mark.parametrize("name", FORMULAS)
@pytest.mark.parametrize("share", [0.95, 0.85, 0.75, 0.65])
def test_inverse_agrees_with_scipy(name, share):
    """Second opinion: scipy's root finder on the same equation."""
    formula = FORMULAS[name]
    root = brentq(lambda r: formula.factor(r) - 1 / share, 1, 5000, xtol=1e-12)
    assert formula.inverse(100 * share, 100) == pytest.approx(root, rel=1e-9)


@pytest.mark.parametrize("row", table("strength", "strength-0"), ids=lambda r: r["Name"])
def test_page_and_code_name_the_same_source(row):
    formula = FORMULAS[row["Name"]]
    assert (row["Used up to"], row["Standing"]) == (str(formula.max_reps), formula.standing)
    assert row["Source"].startswith(formula.citation[:20])
