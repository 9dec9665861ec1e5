"""Rules on what the client says and does: check-ins, soreness, pain, missed sessions, volume."""

from datetime import timedelta

import pytest

from periodization.flags import ClientHistory, PainFact, PlannedFact, WeekVolume, evaluate
from periodization.readiness import CheckIn, baseline
from tests.periodization.flag_logs import TODAY, check_in, exposure
from tests.published.tables import numbers, table


def flags_of(rule, **log):
    return [f for f in evaluate(ClientHistory(**log), TODAY) if f.rule_id == rule]


def pain(days_ago, score, exercise="curl", site="elbow"):
    return PainFact(f"p{days_ago}{site}", TODAY - timedelta(days_ago), score, site, exercise)


USUAL = tuple(check_in(d) for d in range(8, 60))


@pytest.mark.parametrize(("level", "severity"), [(4, None), (3.65, "watch"), (3, "act")])
def test_check_ins_are_judged_against_the_clients_own(level, severity):
    found = flags_of("check_in.below_own_baseline", check_ins=(*USUAL, *(check_in(d, level) for d in range(7))))
    assert [f.severity for f in found] == ([severity] if severity else [])


@pytest.mark.parametrize(("low_days", "quiet"), [(5, True), (7, False)])
def test_a_weak_drop_of_check_ins_is_a_sign_and_not_shown_by_itself(low_days, quiet):
    recent = tuple(check_in(d, 3.5 if d < low_days else 4) for d in range(8))
    (found,) = flags_of("check_in.below_own_baseline", check_ins=(*USUAL, *recent))
    assert (found.quiet, found.severity) == (quiet, "watch")
    assert found.weight > 0


def test_a_client_who_always_answers_low_is_not_flagged():
    assert not flags_of("check_in.below_own_baseline", check_ins=tuple(check_in(d, 2) for d in range(60)))


def test_check_ins_that_have_recovered_are_not_flagged():
    recent = [check_in(d, 2) for d in (4, 5, 6)] + [check_in(d, 4) for d in (0, 1, 2, 3)]
    assert not flags_of("check_in.below_own_baseline", check_ins=(*USUAL, *recent))


def test_too_few_earlier_check_ins_say_nothing():
    few = tuple(check_in(d) for d in range(8, 14)) + tuple(check_in(d, 1) for d in range(7))
    assert not flags_of("check_in.below_own_baseline", check_ins=few)


def test_soreness_on_the_next_training_day_of_the_same_group_is_flagged():
    trained = (exposure(4, 100), exposure(1, 100))
    found = flags_of("soreness.into_next_exposure", exposures=trained, check_ins=(check_in(1, sore=("quadriceps",)),))
    assert [(f.subject_kind, f.subject) for f in found] == [("group", "quadriceps")]


@pytest.mark.parametrize(
    ("trained", "sore_on", "group"),
    [((4, 1), 3, "quadriceps"), ((4, 1), 1, "chest"), ((1,), 1, "quadriceps"), ((12, 1), 1, "quadriceps")],
    ids=["gone by then", "another muscle", "no earlier exposure", "long ago"],
)
def test_other_soreness_is_not(trained, sore_on, group):
    exposures = tuple(exposure(d, 100) for d in trained)
    assert not flags_of(
        "soreness.into_next_exposure", exposures=exposures, check_ins=(check_in(sore_on, sore=(group,)),)
    )


@pytest.mark.parametrize("row", table("flags", "flags-3"), ids=lambda r: r["scores"])
def test_pain_stops_over_five_or_rising_and_is_watched_from_three(row):
    scores = numbers(row["scores"])
    found = flags_of("pain.report", pains=tuple(pain(len(scores) - n, score) for n, score in enumerate(scores)))
    expected = [] if row["severity"] == "none" else [(row["severity"], row["code"], ("curl",))]
    assert [(f.severity, f.code, f.exercises) for f in found] == expected


@pytest.mark.parametrize("row", table("flags", "flags-2"), ids=lambda r: r["recent totals"])
def test_distance_of_recent_check_ins(row):
    past = [CheckIn(TODAY - timedelta(n + 1), *[x / 5] * 5) for n, x in enumerate(numbers(row["earlier totals"]))]
    recent = [CheckIn(TODAY, *[x / 5] * 5) for x in numbers(row["recent totals"])]
    base = baseline(past, TODAY)
    assert base.median == float(row["median"])
    assert base.spread == pytest.approx(float(row["spread"]), abs=0.0006)
    assert base.distance(recent) == pytest.approx(float(row["distance"]), abs=0.0006)


def test_pain_clears_with_time_only():
    assert flags_of("pain.report", pains=(pain(13, 8.0),))
    assert not flags_of("pain.report", pains=(pain(14, 8.0),))


def test_one_site_is_one_flag_with_every_exercise_it_was_reported_with():
    three = (pain(1, 7.0, "squat", "knee"), pain(1, 6.0, "lunge", "knee"), pain(1, 3.0, "leg-curl", "knee"))
    (found,) = flags_of("pain.report", pains=three)
    assert (found.subject_kind, found.subject, found.severity) == ("site", "knee", "stop")
    assert found.params["exercises"] == found.stopped == ("lunge", "squat")
    assert found.values["watched"] == ("leg-curl",)
    assert found.exercises == ("leg-curl", "lunge", "squat")
    assert len(found.evidence_ids) == 3


def test_an_exercise_is_stopped_since_the_report_that_stops_it():
    """Not since the milder one of another exercise with which the flag opened."""
    (found,) = flags_of("pain.report", pains=(pain(10, 4.0, "pushdown"), pain(5, 6.0), pain(1, 7.0)))
    assert (found.opened_on, found.stopped_on) == (TODAY - timedelta(10), (TODAY - timedelta(5),))


def test_two_sites_are_two_flags():
    found = flags_of("pain.report", pains=(pain(1, 7.0, site="wrist"), pain(1, 3.0)))
    assert [(f.subject, f.severity) for f in found] == [("elbow", "watch"), ("wrist", "stop")]


def test_pain_that_rises_at_a_site_over_three_days_stops_what_was_trained_on_the_last():
    rising = (pain(7, 1, "squat", "knee"), pain(4, 2, "lunge", "knee"), pain(1, 3, "leg-press", "knee"))
    (found,) = flags_of("pain.report", pains=rising)
    assert (found.code, found.stopped) == ("pain_rising", ("leg-press",))
    assert found.stopped_on == (TODAY - timedelta(1),)
    assert not flags_of("pain.report", pains=(*rising[:2], pain(1, 2, "leg-press", "knee")))


def test_two_exercises_of_one_day_are_not_a_rise():
    same_day = (pain(4, 1, "squat", "knee"), pain(1, 2, "lunge", "knee"), pain(1, 3, "leg-press", "knee"))
    (found,) = flags_of("pain.report", pains=same_day)
    assert (found.severity, found.exercises) == ("watch", ("leg-press",))


@pytest.mark.parametrize(("score", "everything"), [(7.0, True), (4.0, False)])
def test_pain_without_an_exercise_holds_all_training_from_a_stop_on(score, everything):
    (found,) = flags_of("pain.report", pains=(pain(1, score, exercise=None), pain(1, 3.0, "curl")))
    assert found.everything is everything
    assert found.holds("squat") is everything
    assert found.holds("curl")
    assert found.stopped == ()


@pytest.mark.parametrize(("missed", "severity"), [(1, None), (2, "watch"), (3, "act")])
def test_missed_sessions(missed, severity):
    planned = tuple(PlannedFact(f"s{n}", TODAY - timedelta(n + 1), n >= missed) for n in range(6))
    found = flags_of("sessions.missed", planned=planned)
    assert [f.severity for f in found] == ([severity] if severity else [])


def test_todays_session_is_not_missed_yet():
    assert not flags_of("sessions.missed", planned=tuple(PlannedFact(f"s{n}", TODAY, False) for n in range(3)))


@pytest.mark.parametrize(("done", "flagged"), [(20.0, False), (20.5, True)])
def test_volume_far_over_the_range(done, flagged):
    week = TODAY - timedelta(TODAY.weekday())
    assert bool(flags_of("volume.far_over_range", volume=(WeekVolume(week, "chest", done, 10, 16),))) is flagged
