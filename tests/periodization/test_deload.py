"""Deload prompts: several independent signs, never one alone, pain excepted; numbers, and no diagnosis."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.deload import DEFAULT, WeekPrescription, propose_deload, reduced_sets
from periodization.flags import Flag
from periodization.sentences import sentence
from tests.published.tables import number, table


def flag(family, weight=5.0, severity="watch", subject="", **values):
    kind = "client" if not subject else "group" if family == "soreness" else "exercise"
    return Flag(
        f"{family}.rule",
        1,
        family,
        severity,
        kind,
        subject,
        date(2026, 3, 1),
        ("x",),
        "c",
        "d",
        weight=weight,
        values=values,
    )


PERFORMANCE, CHECK_IN = flag("performance"), flag("check_in")
SORE = tuple(flag("soreness", 0.8, subject=g) for g in ("chest", "lats", "quadriceps", "calves"))


@pytest.mark.parametrize("family", ["performance", "check_in", "soreness", "attendance", "volume"])
@given(weight=st.floats(0, 100), count=st.integers(1, 5))
def test_one_sign_alone_prompts_nothing(family, weight, count):
    flags = [flag(family, weight, subject=str(n)) for n in range(count)]
    assert propose_deload(flags, 3) is None


def test_two_weak_signs_prompt_nothing():
    assert propose_deload([flag("performance", 0.8), flag("check_in", 0.9)], 3) is None


def test_two_signs_together_prompt():
    found = propose_deload([flag("performance", 1.0), flag("check_in", 1.0)], 3)
    assert (found.kind, found.signs, found.weight) == ("signs", ("performance", "check_in"), 2.0)
    assert found.evidence == (("performance.rule", ""), ("check_in.rule", ""))


def test_several_flags_of_one_family_count_once():
    flags = [flag("performance", 0.8), flag("performance", 0.7, subject="squat"), flag("check_in", 0.9)]
    assert propose_deload(flags, 3) is None


def test_soreness_adds_up_over_three_groups_at_most():
    assert propose_deload([flag("performance", 0.75), *SORE[:1]], 3) is None
    assert propose_deload([flag("performance", 0.75), *SORE], 3).weight == pytest.approx(0.75 + 3 * 0.8)


def test_pain_prompts_alone():
    found = propose_deload([flag("pain", 0, "stop", "curl")], 3)
    assert found.kind == "pain"
    assert "clinician" in sentence(found.reasons[0])


def test_watched_pain_prompts_nothing():
    assert propose_deload([flag("pain", 0, "watch", "curl")], 3) is None


@pytest.mark.parametrize(("weeks", "kind"), [(None, None), (3, None), (5.9, None), (6, "due"), (9.5, "due")])
def test_time_since_the_last_deload(weeks, kind):
    found = propose_deload([], weeks)
    assert (found and found.kind) == kind


def test_a_planned_deload_is_a_prompt_of_its_own():
    assert propose_deload([], 2, planned=True).kind == "planned"
    assert propose_deload([PERFORMANCE, CHECK_IN], 2, planned=True).kind == "signs"


def test_signs_right_after_a_deload_ask_for_no_second_one():
    assert propose_deload([PERFORMANCE, CHECK_IN], 0.9) is None
    assert propose_deload([PERFORMANCE, CHECK_IN], 1.0) is not None


def test_rest_that_missed_sessions_gave_counts():
    assert propose_deload([PERFORMANCE, CHECK_IN, flag("attendance", 0, lately=2)], 3) is None
    assert propose_deload([PERFORMANCE, CHECK_IN, flag("attendance", 0, lately=1)], 3) is not None


def test_numbers_stay_inside_what_the_surveys_report():
    assert 4 <= DEFAULT.due_after_weeks <= 6
    assert 5 <= DEFAULT.days <= 7
    found = propose_deload([PERFORMANCE, CHECK_IN], 3, week=WeekPrescription(40, 1, 2))
    assert (found.sets, found.rir_min, found.rir_max, found.load_share) == (20, 3, 4, 0.9)


@pytest.mark.parametrize("row", table("deload", "deload-1"), ids=lambda r: " ".join(r.values()))
def test_worked_prompts(row):
    performance, check = number(row["performance"]), number(row["check-in"])
    flags = [flag("soreness", 0.8, subject=str(n)) for n in range(int(row["sore groups"]))]
    flags += [flag("performance", performance)] if performance else []
    flags += [flag("check_in", check)] if check else []
    flags += [flag("attendance", 0, lately=int(row["missed in 7 days"]))]
    found = propose_deload(flags, float(row["weeks"]))
    assert (found.kind if found else "none") == row["prompt"]


@pytest.mark.parametrize("row", table("deload", "deload-2"), ids=lambda r: r["sets"])
def test_worked_sets(row):
    assert reduced_sets(int(row["sets"]), DEFAULT.sets_share) == int(row["reduced"])


@given(sets=st.integers(2, 60), share=st.floats(0.05, 0.95))
def test_reduced_sets_are_fewer_and_never_none(sets, share):
    assert 1 <= reduced_sets(sets, share) < sets


@given(
    flags=st.lists(st.sampled_from((PERFORMANCE, CHECK_IN, *SORE, flag("pain", 0, "stop", "curl"))), max_size=6),
    weeks=st.none() | st.floats(0, 30),
    planned=st.booleans(),
)
def test_every_prompt_says_why_and_that_it_is_no_diagnosis(flags, weeks, planned):
    found = propose_deload(flags, weeks, planned)
    assert found == propose_deload(flags, weeks, planned)
    if found is not None:
        words = [sentence(reason) for reason in found.reasons]
        assert len(words) >= 2
        assert "not a diagnosis" in words[-1]
        assert found.sets_share < 1
        assert found.load_share <= 1
        assert found.rir_up > 0
