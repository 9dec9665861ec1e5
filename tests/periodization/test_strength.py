"""Properties of e1RM and its inverse, for all equations."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.strength import FORMULAS, estimate_e1rm, formula_named, load_for, percent_table, rpe_to_rir

names = st.sampled_from(sorted(FORMULAS))
loads = st.floats(0.5, 500)
reps = st.integers(1, 15)
rirs = st.integers(0, 5).map(float) | st.sampled_from([0.5, 1.5, 2.5])


@given(loads, names)
def test_one_repetition_is_the_maximum(load, name):
    assert estimate_e1rm(load, 1, 0, name).e1rm_kg == load
    assert load_for(load, 1, 0, name) == load


@given(loads, st.floats(1.01, 2), reps, rirs, names)
def test_e1rm_rises_with_load(load, more, count, rir, name):
    assert estimate_e1rm(load * more, count, rir, name).e1rm_kg > estimate_e1rm(load, count, rir, name).e1rm_kg


@given(loads, reps, rirs, names)
def test_e1rm_rises_with_repetitions_and_with_rir(load, count, rir, name):
    here = estimate_e1rm(load, count, rir, name)
    for harder in (estimate_e1rm(load, count + 1, rir, name), estimate_e1rm(load, count, rir + 0.5, name)):
        assert harder is None or harder.e1rm_kg > here.e1rm_kg


@given(st.floats(1, 60), st.floats(0.01, 5), names)
def test_ratio_rises_everywhere_and_without_a_jump(at, step, name):
    formula = formula_named(name)
    assert formula.factor(at + step) > formula.factor(at)
    assert formula.factor(at + 1e-9) == pytest.approx(formula.factor(at), rel=1e-6)


@pytest.mark.parametrize("name", FORMULAS)
def test_a_half_repetition_lies_on_the_line_from_one_to_two(name):
    formula = FORMULAS[name]
    for share in (0.25, 0.5, 0.75):
        assert formula.factor(1 + share) == pytest.approx(1 + share * (formula.factor(2) - 1), rel=1e-12)


@given(loads, reps, rirs, names)
def test_load_gives_back_the_load_of_the_estimate(load, count, rir, name):
    estimate = estimate_e1rm(load, count, rir, name)
    assert load_for(estimate.e1rm_kg, count, rir, name) == pytest.approx(load, rel=1e-12)


@given(loads, st.floats(1, 20), names)
def test_inverse_finds_the_repetitions(load, count, name):
    formula = formula_named(name)
    assert formula.inverse(load, formula.predict(load, count)) == pytest.approx(count, rel=1e-6)


@pytest.mark.parametrize("name", FORMULAS)
def test_inverse_of_a_load_at_or_over_the_maximum_is_one(name):
    assert FORMULAS[name].inverse(100, 100) == 1
    assert FORMULAS[name].inverse(120, 100) == 1


@given(loads, reps, names)
def test_unknown_effort_is_never_heavier_than_known(load, count, name):
    unknown = estimate_e1rm(load, count, None, name)
    assert unknown.e1rm_kg == estimate_e1rm(load, count, 0, name).e1rm_kg
    assert unknown.confidence <= 0.4
    assert "effort_unknown" in unknown.reasons


@given(reps, rirs, names)
def test_confidence_is_a_share_and_only_falls(count, rir, name):
    here = estimate_e1rm(100, count, rir, name)
    further = estimate_e1rm(100, count + 1, rir, name)
    assert 0 < here.confidence <= 1
    assert further is None or further.confidence <= here.confidence
    assert (here.confidence < 1) == bool(here.reasons)


@pytest.mark.parametrize("load", [0.0, -5.0, math.nan, math.inf])
def test_without_a_load_nothing_is_said(load):
    assert estimate_e1rm(load, 5, 2) is None


@pytest.mark.parametrize(("count", "rir"), [(0, 2), (21, 0), (18, 3)])
def test_without_repetitions_or_past_twenty_nothing_is_said(count, rir):
    assert estimate_e1rm(100, count, rir) is None


@pytest.mark.parametrize("rir", [-1, math.nan, math.inf])
def test_impossible_rir_is_refused(rir):
    with pytest.raises(ValueError, match="in reserve"):
        estimate_e1rm(100, 5, rir)


@given(st.floats(10, 300), st.integers(1, 60), st.integers(0, 10), names)
def test_a_load_is_never_above_the_maximum_and_falls_with_effort_left(e1rm, count, rir, name):
    assert 0 < load_for(e1rm, count, rir, name) <= e1rm
    assert load_for(e1rm, count, rir + 1, name) < load_for(e1rm, count, rir, name)


def test_no_strength_means_no_load():
    assert load_for(0, 8, 2) == 0


@pytest.mark.parametrize("e1rm", [-1, math.nan, math.inf])
def test_load_for_an_impossible_maximum_is_refused(e1rm):
    with pytest.raises(ValueError, match="e1RM"):
        load_for(e1rm, 8, 2)


def test_unknown_equation_lists_the_known_ones():
    with pytest.raises(ValueError, match="epley, brzycki, lander, lombardi, mayhew, oconner, wathan"):
        formula_named("brzicky")


@pytest.mark.parametrize("rpe", [0, 0.5, 10.5, 7.25, math.nan])
def test_rpe_off_the_scale_is_refused(rpe):
    with pytest.raises(ValueError, match="RPE"):
        rpe_to_rir(rpe)


def test_percent_table_has_a_row_per_repetition():
    assert [row.reps for row in percent_table()] == list(range(1, 16))
    assert percent_table("mayhew", [1])[0].percent == 100
