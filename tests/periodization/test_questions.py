"""Questions beside the deload: when each is asked, and which sets are added."""

import datetime as dt
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.flags import Flag
from periodization.questions import GroupPlan, add_sets, ask_contact, ask_hold, ask_progress, ask_swap
from periodization.sentences import sentence

PAGE = Path(__file__).resolve().parents[2] / "docs" / "methods" / "questions.md"


def flag(rule="x", family="performance", severity="watch", kind="exercise", subject="7", **fields):
    values = {"opened_on": dt.date(2024, 5, 6), "evidence_ids": ("e",), "code": "c", "clears_code": "d", **fields}
    return Flag(rule, 1, family, severity, kind, subject, **values)


MONDAY = dt.date(2024, 5, 20)


def stop(params, *stopped):
    """A flag of pain that opened a fortnight before MONDAY; `stopped` are pairs of exercise and day."""
    exercises, days = zip(*stopped, strict=True)
    return flag("pain.report", "pain", "stop", "site", "elbow", params=params, stopped=exercises, stopped_on=days)


MISSED = flag("sessions.missed", "attendance", "act", "client", "", code="sessions_missed", params={"missed": 3})


@pytest.mark.parametrize(
    ("flags", "silent", "plan", "asked"),
    [
        ([], 13, True, False),
        ([], 14, True, True),
        ([], 14, False, False),
        ([], None, True, False),
        ([MISSED], 2, True, True),
        ([flag("sessions.missed", "attendance", "watch", "client", "")], 2, True, False),
    ],
)
def test_a_word_is_proposed_when_sessions_are_missed_or_none_came_for_two_weeks(flags, silent, plan, asked):
    assert (ask_contact(flags, silent, plan) is not None) is asked


def test_one_sign_holds_nothing_back_and_two_of_one_rule_are_one_sign():
    assert ask_hold([flag("a"), flag("a")]) is None
    assert ask_hold([flag("a"), flag("b", subject="8")]) is None
    question = ask_hold([flag("a", evidence_ids=("1",)), flag("b", evidence_ids=("2",))])
    assert (question.subjects, question.evidence) == (("7",), ("1", "2"))


def test_each_exercise_that_pain_stops_is_a_question_of_its_own():
    params = {"site": "elbow", "score": 7}
    pain = stop(params, ("3", MONDAY), ("4", MONDAY))
    assert [one.subjects for one in ask_swap([pain], MONDAY)] == [("3",), ("4",)]
    assert ask_swap([flag("pain.report", "pain", "watch", "site", "elbow", params=params, stopped=())], MONDAY) == ()


def test_pain_that_has_grown_is_asked_about_in_the_week_in_which_it_stops_the_exercise():
    """The flag opened with a milder report, weeks before; what stopped an exercise earlier was asked about then."""
    pain = stop(
        {"site": "elbow", "score": 6}, ("3", MONDAY + dt.timedelta(days=2)), ("4", MONDAY - dt.timedelta(days=1))
    )
    assert [one.subjects for one in ask_swap([pain], MONDAY)] == [("3",)]


UNDER = [GroupPlan("chest", 4, 6), GroupPlan("lats", 8, 6), GroupPlan("calves", 0, 6)]


@pytest.mark.parametrize(
    ("flags", "kept", "before", "gap", "asked"),
    [
        ([], (3, 3), (3, 3), 0.0, True),
        ([], (3, 2), (3, 3), 0.0, False),
        ([], (0, 0), (3, 3), 0.0, False),
        ([], (3, 3), (3, 2), 0.0, False),
        ([], (3, 3), (0, 0), 0.0, False),
        ([], (3, 3), (3, 3), None, False),
        ([], (3, 3), (3, 3), -0.6, False),
        ([], (3, 3), (3, 3), 2.0, True),
        ([flag()], (3, 3), (3, 3), 0.0, True),
        ([flag(severity="act")], (3, 3), (3, 3), 0.0, False),
        ([flag(family="soreness", kind="group")], (3, 3), (3, 3), 0.0, False),
        ([flag(family="pain", kind="site")], (3, 3), (3, 3), 0.0, False),
    ],
)
def test_sets_are_added_only_when_two_weeks_were_kept_and_nothing_asks_for_less(flags, kept, before, gap, asked):
    question = ask_progress(flags, UNDER, kept, before, gap)
    assert (question is not None) is asked
    if question:
        assert question.subjects == ("chest",), "a group that nothing trains, and one that has enough, are left alone"


def worked():
    text = PAGE.read_text(encoding="utf-8").split("| slots |")[1]
    for line in text.splitlines()[2:]:
        if not line.startswith("|"):
            break
        yield tuple(cell.strip() for cell in line.strip("|").split("|"))


@pytest.mark.parametrize(("slots", "groups", "added"), list(worked()))
def test_sets_go_where_the_page_says(slots, groups, added):
    rows = []
    for number, slot in enumerate(slots.split(";"), 1):
        sets, credits = slot.split(":")
        rows.append((number, int(sets), {n: float(c) for n, c in re.findall(r"(\w+) ([\d.]+)", credits)}))
    plans = [GroupPlan(n, float(p), float(f)) for n, p, f in re.findall(r"(\w+) ([\d.]+)/([\d.]+)", groups)]
    wanted = {} if added == "none" else dict.fromkeys((int(one) for one in added.split(",")), 1)
    assert add_sets(rows, plans, 6) == wanted


credit = st.dictionaries(st.sampled_from("abc"), st.sampled_from([0.5, 1.0]), max_size=3)
slot = st.tuples(st.integers(1, 8), credit)
plan = st.tuples(st.floats(0, 12), st.floats(0, 12))


@given(st.lists(slot, max_size=8), st.dictionaries(st.sampled_from("abc"), plan, max_size=3))
def test_never_more_than_one_set_a_slot_or_two_a_group_nor_above_the_most(slots, plans):
    rows = [(number, sets, credits) for number, (sets, credits) in enumerate(slots)]
    groups = [GroupPlan(name, planned, floor) for name, (planned, floor) in plans.items()]
    added = add_sets(rows, groups, 6)
    assert set(added.values()) <= {1}
    assert len(added) <= 2 * len(groups)
    assert all(sets < 6 for number, sets, _ in rows if number in added)
    assert added == add_sets(rows, list(reversed(groups)), 6)


def test_every_reason_has_its_sentence():
    questions = [
        ask_contact([MISSED], 20, True),
        ask_hold([flag("a"), flag("b")]),
        ask_progress([], UNDER, (3, 3), (3, 3), 0.0),
        *ask_swap([stop({"site": "elbow", "score": 7}, ("3", MONDAY))], MONDAY),
    ]
    for question in questions:
        for reason in question.reasons:
            if reason.code != "sessions_missed":
                assert sentence(reason)
