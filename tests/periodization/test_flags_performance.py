"""Performance rules: each fires on the case it is for, and not on the case beside it."""

import math
from dataclasses import replace

import pytest

from periodization.flags import DEFAULT, ClientHistory, evaluate
from periodization.flags.expectation import Compared, point_of
from periodization.flags.performance_overall import pooled
from tests.periodization.flag_logs import TODAY, exposure
from tests.published.tables import numbers, table


def flags_of(rule, *exposures):
    return [f for f in evaluate(ClientHistory(tuple(exposures)), TODAY) if f.rule_id == rule]


def steady(first, last, exercises=("squat",), load=100.0):
    return [exposure(d, load, exercise=e) for d in range(first, last, 3) for e in exercises]


def test_two_exposures_far_under_the_trend_are_flagged():
    found = flags_of("performance.under_expected", *steady(15, 70), exposure(2, 80), exposure(5, 80))
    assert [f.subject for f in found] == ["squat"]
    assert found[0].params["percent"] > 15
    assert len(found[0].evidence_ids) == 6


def test_one_bad_exposure_is_not():
    assert not flags_of("performance.under_expected", *steady(15, 70), exposure(2, 80), exposure(5, 100))


def test_lighter_work_without_rir_is_no_decline():
    sets = [exposure(d, 80, rir=None) for d in (2, 5)]
    assert not flags_of("performance.under_expected", *steady(15, 70), *sets)


def test_a_deload_is_no_decline():
    week = [exposure(d, 80, deload=True) for d in (2, 5)]
    assert not flags_of("performance.under_expected", *steady(15, 70), *week)


def test_all_exercises_a_little_under_are_flagged_together_though_none_is_alone():
    names = ("squat", "press", "row", "curl")
    recent = [exposure(d, 93, exercise=e) for d in (2, 5) for e in names]
    log = [*steady(8, 70, names), *recent]
    found = flags_of("performance.overall_under_expected", *log)
    assert [f.severity for f in found] == ["act"]
    assert 5 < found[0].params["percent"] < 9
    assert found[0].weight > DEFAULT.overall_act
    assert not flags_of("performance.under_expected", *log)


@pytest.mark.parametrize("row", table("flags", "flags-1"), ids=lambda r: r["z"])
def test_gaps_of_a_day_share_its_noise(row):
    sessions = [
        [Compared(exposure(1, 100), (), 1, 1, 1, gap, 0.06) for gap in numbers(row[name])]
        for name in ("session A", "session B")
    ]
    mean, sd = pooled(sessions, DEFAULT.day_sd)
    assert -100 * math.expm1(mean) == pytest.approx(float(row["percent under"]), abs=0.0006)
    assert 100 * sd == pytest.approx(float(row["SD %"]), abs=0.0006)
    assert mean / sd == pytest.approx(float(row["z"]), abs=0.0006)


def test_one_session_is_too_little_for_an_overall_flag():
    names = ("squat", "press", "row", "curl", "pull")
    recent = [exposure(2, 80, exercise=e) for e in names]
    assert not flags_of("performance.overall_under_expected", *steady(8, 70, names), *recent)


def test_same_work_at_lower_rir_twice_is_flagged():
    before = [exposure(d, 100, rir=4.0) for d in (12, 15, 18, 21)]
    found = flags_of("effort.same_work_lower_rir", *before, exposure(2, 100, rir=1.0), exposure(5, 100, rir=1.0))
    assert [f.params["drop"] for f in found] == [3.0]


def test_more_repetitions_at_lower_rir_are_other_work():
    before = [exposure(d, 100, rir=4.0) for d in (12, 15, 18, 21)]
    after = [exposure(d, 100, reps=(10, 10, 10), rir=1.0) for d in (2, 5)]
    assert not flags_of("effort.same_work_lower_rir", *before, *after)


def test_one_hard_day_is_not_same_work_lower_rir():
    before = [exposure(d, 100, rir=4.0) for d in (12, 15, 18, 21)]
    assert not flags_of("effort.same_work_lower_rir", *before, exposure(2, 100, rir=1.0), exposure(5, 100, rir=4.0))


def test_sets_under_the_floor_twice_in_a_row_are_flagged():
    low = [exposure(d, 100, reps=(5, 5, 6)) for d in (2, 5)]
    found = flags_of("reps.under_floor", *low)
    assert [(f.params["under"], f.params["sets"], f.params["floor"]) for f in found] == [(4, 6, 6)]


def test_sets_at_the_floor_are_not_under_it():
    assert not flags_of("reps.under_floor", *[exposure(d, 100, reps=(6, 6, 6)) for d in (2, 5)])


def test_without_a_prescription_there_is_no_floor():
    low = [exposure(d, 100, reps=(3, 3, 3), reps_min=None) for d in (2, 5)]
    assert not flags_of("reps.under_floor", *low)


def test_thresholds_are_arguments():
    log = ClientHistory((exposure(2, 100, reps=(5, 6, 6)), exposure(5, 100, reps=(5, 6, 6))))
    strict = replace(DEFAULT, floor_share=0.3)
    assert not [f for f in evaluate(log, TODAY) if f.rule_id == "reps.under_floor"]
    assert [f.thresholds["share"] for f in evaluate(log, TODAY, strict)] == [0.3]


def test_a_block_that_closes_in_on_failure_is_no_growth():
    """The same true strength: people who leave 3 say 2.05, and at failure they say 0."""
    far = point_of(exposure(5, 100, reps=(8, 8, 8), rir=2.05))
    near = point_of(exposure(2, 100, reps=(11, 11, 11), rir=0.0))
    assert abs(far[0].e1rm_kg / near[0].e1rm_kg - 1) < 0.001
