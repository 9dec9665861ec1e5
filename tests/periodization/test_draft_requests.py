"""A request that makes no sense is refused in words; weights do what they say."""

from dataclasses import replace

import pytest

from periodization.draft import (
    Candidate,
    Clash,
    Draft,
    ExerciseCount,
    Grades,
    GradeWeights,
    Head,
    Limit,
    Prescription,
    Prescriptions,
    Request,
    Stop,
    Target,
    TrainingDay,
    Weights,
    draft_week,
)
from periodization.sentences import sentence

HEADS = (Head("long", "triceps", frozenset({"extend"})), Head("short", "biceps", frozenset({"bend"})))


def exercise(name, head="long", grade=3, **more):
    known = {"equipment": "cable", "compound": False, "actions": frozenset({"extend"}), **more}
    return Candidate(name, {head: 1}, Grades(grade, grade, grade, grade), **known)


PUSHDOWN, CURL = exercise("pushdown"), exercise("curl", "short", actions=frozenset({"bend"}), equipment="bar")
GOOD = Request(
    HEADS,
    (PUSHDOWN, CURL),
    (TrainingDay("mon", 0, 60), TrainingDay("thu", 3, 60)),
    (Target("triceps", 4, 8), Target("biceps", 4, 8)),
)


def exercises_of(request):
    return {slot.exercise for day in draft_week(request).days for slot in day.slots}


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"days": ()}, "1 to 7 training days"),
        ({"days": (TrainingDay("mon", 0, 0),)}, "more than 0 minutes"),
        ({"days": (TrainingDay("a", 0, 60), TrainingDay("b", 0, 60))}, "weekday 0 stands twice"),
        ({"days": (TrainingDay("a", 7, 60),)}, "weekday from 0 to 6"),
        ({"candidates": (PUSHDOWN, PUSHDOWN)}, "exercise pushdown stands twice"),
        ({"candidates": (replace(PUSHDOWN, credits={"nose": 1}),)}, "Unknown head: nose"),
        ({"candidates": (replace(PUSHDOWN, credits={"long": 1.5}),)}, "Credits of pushdown"),
        ({"candidates": (replace(PUSHDOWN, grades=Grades(0, 1, 1, 1)),)}, "Grades of pushdown"),
        ({"candidates": (replace(PUSHDOWN, setup_seconds=-1),)}, "Seconds of pushdown"),
        ({"targets": (Target("triceps", 8, 4),)}, "must rise"),
        ({"targets": (Target("triceps", 4, 8, aim=9),)}, "aim inside"),
        ({"targets": (Target("ears", 4, 8),)}, "Unknown group: ears"),
        ({"include": frozenset({"squat"})}, "Unknown exercise: squat"),
        ({"avoid": frozenset({"squat"})}, "Unknown exercise: squat"),
        ({"counts": (ExerciseCount("triceps", "sun", 1, 2),)}, "Unknown day: sun"),
        ({"counts": (ExerciseCount("triceps", "mon", 2, 1),)}, "must rise"),
        ({"sets": (4, 2)}, "Sets of an exercise"),
        ({"sets": (0, 2)}, "Sets of an exercise"),
        ({"session_cap": 0}, "over 0"),
        ({"stop": Stop(gap=-0.1)}, "The gap"),
        ({"stop": Stop(seconds=0)}, "The gap"),
        ({"weights": Weights(grade=-1)}, "grade must lie between"),
        ({"weights": Weights(floor=0.5)}, "at least as much"),
        ({"weights": Weights(grades=GradeWeights(0, 0, 0, 0))}, "four grades"),
        ({"weights": Weights(priority={"focus": 1})}, "has no factor"),
        ({"prescriptions": Prescriptions(Prescription((12, 8), (1, 2)), Prescription((8, 12), (1, 2)))}, "Repetitions"),
        ({"prescriptions": Prescriptions(Prescription((8, 12), (1, 2)), Prescription((8, 12), (3, 4)))}, "reserve"),
    ],
)
def test_nonsense_is_refused_in_words(change, words):
    with pytest.raises(ValueError, match=words):
        draft_week(replace(GOOD, **change))


def test_what_makes_sense_is_drafted():
    assert isinstance(draft_week(GOOD), Draft)
    assert exercises_of(GOOD) == {"pushdown", "curl"}


def test_better_graded_exercise_is_taken_and_the_weight_decides():
    request = replace(GOOD, candidates=(exercise("a-poor", grade=1), exercise("b-good", grade=5), CURL))
    assert "a-poor" not in exercises_of(request)
    # With no weight on grades, the one with the shorter set-up is as good as its set-up.
    quick = exercise("a-poor", grade=1, setup_seconds=5)
    request = replace(request, candidates=(quick, exercise("b-good", grade=5, setup_seconds=300), CURL))
    assert "b-good" not in exercises_of(replace(request, weights=Weights(grade=0, setup=1)))


def test_one_grade_alone_can_be_made_to_count():
    long, easy = Grades(1, 5, 1, 1), Grades(1, 1, 5, 1)
    request = replace(
        GOOD, candidates=(replace(PUSHDOWN, id="long", grades=long), replace(PUSHDOWN, id="easy", grades=easy), CURL)
    )
    for shares, wanted, unwanted in (
        (GradeWeights(0, 1, 0, 0), "long", "easy"),
        (GradeWeights(0, 0, 1, 0), "easy", "long"),
    ):
        chosen = exercises_of(replace(request, weights=Weights(grades=shares)))
        assert wanted in chosen
        assert unwanted not in chosen


def test_group_is_not_trained_on_two_days_in_a_row_if_it_can_be_helped():
    days = (TrainingDay("mon", 0, 60), TrainingDay("tue", 1, 60))
    request = replace(GOOD, days=days, targets=(Target("triceps", 4, 4), Target("biceps", 4, 4)))
    for day in draft_week(request).days:
        assert len(day.slots) <= 1 or {slot.exercise for slot in day.slots} == {"pushdown", "curl"}
    trained = [{slot.exercise for slot in day.slots} for day in draft_week(request).days]
    assert not trained[0] & trained[1]


def test_sunday_and_monday_are_neighbours():
    days = (TrainingDay("mon", 0, 60), TrainingDay("sun", 6, 60))
    request = replace(GOOD, days=days, spacing_must=True, targets=(Target("triceps", 8, 8),), sets=(2, 4))
    clash = draft_week(request)
    assert isinstance(clash, Clash)
    assert "spacing" in {demand.kind for demand in clash.demands}


def test_exercise_that_ends_badly_near_failure_keeps_one_more_in_reserve():
    risky = replace(PUSHDOWN, grades=Grades(5, 5, 5, 1))
    days = draft_week(replace(GOOD, candidates=(risky, CURL))).days
    rir = {slot.exercise: slot.rir for day in days for slot in day.slots}
    assert rir == {"pushdown": (2, 3), "curl": (1, 2)}


def test_exercise_whose_load_cannot_be_raised_gets_more_repetitions_unless_the_coach_says_otherwise():
    light = replace(PUSHDOWN, grades=Grades(5, 5, 1, 5))
    request = replace(GOOD, candidates=(light, CURL))

    def reps(asked):
        return {slot.exercise: slot.reps for day in draft_week(asked).days for slot in day.slots}

    assert reps(request) == {"pushdown": (12, 25), "curl": (10, 15)}
    dose = Prescription((8, 12), (1, 2))
    assert reps(replace(request, prescriptions=Prescriptions(dose, dose))) == {"pushdown": (8, 12), "curl": (8, 12)}


def test_clash_says_what_would_be_enough():
    # 8 sets of 50 s + 120 s on one day do not fit into 10 minutes; the other floor has nothing to do with it.
    request = replace(
        GOOD,
        days=(TrainingDay("mon", 0, 10),),
        targets=(Target("triceps", 4, 8), Target("biceps", 0, 8)),
        sets=(2, 4),
        warm_up_minutes=0,
    )
    clash = draft_week(request)
    assert isinstance(clash, Clash)
    assert {(demand.kind, demand.subject) for demand in clash.demands} == {("floor", "triceps"), ("minutes", "mon")}
    enough = {relaxation.demand.kind: relaxation.enough for relaxation in clash.relaxations}
    # 4 x 170 s = 11 min 20 s, and no set-up beyond the rest; 3 sets take 8 min 30 s.
    assert enough == {"floor": 3.0, "minutes": 12.0}
    for relaxation in clash.relaxations:
        assert sentence(relaxation.reason)
    minutes = replace(request, days=(TrainingDay("mon", 0, 12),))
    floor = replace(request, targets=(Target("triceps", 3, 8), Target("biceps", 0, 8)))
    assert all(isinstance(draft_week(mended), Draft) for mended in (minutes, floor))


def test_limit_that_rules_out_all_exercises_of_a_group_clashes_with_its_floor():
    clash = draft_week(replace(GOOD, limits=(Limit("action", "extend"),)))
    assert isinstance(clash, Clash)
    assert {(demand.kind, demand.subject) for demand in clash.demands} == {("floor", "triceps"), ("action", "extend")}
    assert {relaxation.demand.kind for relaxation in clash.relaxations} == {"floor", "action"}


def test_every_kind_of_demand_and_relaxation_has_a_sentence():
    from typing import get_args

    from periodization.draft.demands import Demand, Kind
    from periodization.rules import Reason

    for kind in get_args(Kind):
        reason = Demand(kind, "a", "b", 1.0).reason()
        assert sentence(reason)
        assert sentence(Reason(f"draft_relax_{kind}", {**reason.params, "enough": 2.0}))
