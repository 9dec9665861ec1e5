"""Deload prompts against what surveys and the consensus report."""

from datetime import date

import pytest

from periodization.deload import DEFAULT, SIGNS, WeekPrescription, propose_deload, reduced_sets
from periodization.flags import Flag

DUE = propose_deload([], DEFAULT.due_after_weeks, week=WeekPrescription(40, 1, 2))


def sign(family, severity="act", weight=5.0):
    rule, code = f"{family}.x", "clears_volume"
    return Flag(rule, 1, family, severity, "client", "", date(2026, 3, 2), ("e",), code, code, weight=weight)


@pytest.mark.parametrize(("least", "most"), [(4, 6), (5.6 - 2.3, 5.6 + 2.3)], ids=["SOURCED-Bell", "SOURCED-Rogerson"])
def test_interval_is_one_that_is_reported(least, most):
    """SOURCED: 4-6 weeks (Bell 2022, 18 coaches); 5.6, SD 2.3 (Rogerson 2024, 246 lifters)."""
    assert least <= DEFAULT.due_after_weeks <= most


@pytest.mark.parametrize(("least", "most"), [(5, 7), (6.4 - 1.7, 6.4 + 1.7)], ids=["SOURCED-Bell", "SOURCED-Rogerson"])
def test_length_is_one_that_is_reported(least, most):
    """SOURCED: 5-7 days (Bell 2022); 6.4, SD 1.7 (Rogerson 2024)."""
    assert least <= DUE.days <= most


def test_sets_go_down_and_effort_and_load_ease():
    """SOURCED: fewer sets, load down, RIR up (Rogerson 2024)."""
    assert DUE.sets < 40
    assert (DUE.rir_min, DUE.rir_max) > (1, 2)
    assert DUE.load_share <= 1


@pytest.mark.parametrize("sets", range(1, 9))
def test_every_exercise_stays(sets):
    """SOURCED: the same exercises, the same frequency (Rogerson 2024): no slot goes to nothing."""
    assert reduced_sets(sets, DEFAULT.sets_share) >= 1


@pytest.mark.parametrize("family", SIGNS)
def test_no_single_marker_is_enough(family):
    """SOURCED: no single marker meets all criteria (Meeusen 2013)."""
    assert propose_deload([sign(family)] * 3, 3) is None
    assert propose_deload([sign(one) for one in SIGNS], 3).kind == "signs"


def test_a_prompt_never_diagnoses():
    """SOURCED: illness, low energy intake and iron deficiency must be excluded (Meeusen 2013); so it asks."""
    assert DUE.reasons[-1].code == "deload_no_diagnosis"
