"""An arm week of common practice, drafted from the library: the constraints are a coach's and must be possible."""

from functools import cache

import pytest

from bench.library import read_candidates, read_heads
from periodization.dose import CountedSet, weekly_volume
from periodization.draft import (
    Draft,
    ExerciseCount,
    Prescription,
    Prescriptions,
    Request,
    Stop,
    Target,
    TrainingDay,
    draft_week,
)

MUSCLES = ("biceps", "triceps")
DOSE = Prescription((8, 12), (1, 2))
HEADS = {head.id: head.group for head in read_heads() if head.group in MUSCLES}
LIBRARY = {one.id: one for one in read_candidates()}


@cache
def arm_week():
    return draft_week(
        Request(
            read_heads(),
            tuple(LIBRARY.values()),
            (TrainingDay("first", 0, 75), TrainingDay("second", 3, 60)),
            tuple(Target(muscle, 18, 20, "focus") for muscle in MUSCLES),
            prescriptions=Prescriptions(DOSE, DOSE),
            counts=tuple(
                ExerciseCount(muscle, day, n, n) for muscle in MUSCLES for day, n in (("first", 3), ("second", 2))
            ),
            session_cap=12,
            stop=Stop(seconds=20),
        )
    )


def slots():
    return [slot for day in arm_week().days for slot in day.slots]


def test_week_exists_and_is_near_the_best():
    assert isinstance(arm_week(), Draft)
    assert arm_week().gap <= 0.01


def test_each_muscle_reaches_eighteen_sets_as_the_tally_counts_them():
    sets = [CountedSet(slot.exercise, slot.rir[1]) for slot in slots() for _ in range(slot.sets)]
    volume = weekly_volume(sets, {e: one.credits for e, one in LIBRARY.items()}, {}, HEADS)
    assert all(18 <= volume.by_group[muscle] <= 20 for muscle in MUSCLES)
    assert all((slot.reps, slot.rir) in {((8, 12), (1, 2)), ((8, 12), (2, 3))} for slot in slots())


@pytest.mark.parametrize("muscle", MUSCLES)
def test_three_and_two_exercises(muscle):
    direct = [
        sum(any(HEADS.get(h) == muscle and c == 1 for h, c in LIBRARY[s.exercise].credits.items()) for s in day.slots)
        for day in arm_week().days
    ]
    assert direct == [3, 2]


@pytest.mark.parametrize("head", HEADS)
def test_every_head_is_trained_as_directly_as_the_library_can(head):
    best = max(one.credits.get(head, 0) for one in LIBRARY.values())
    assert best > 0
    assert best in {LIBRARY[slot.exercise].credits.get(head, 0) for slot in slots()}


@pytest.mark.parametrize("muscle", MUSCLES)
def test_an_exercise_loads_each_muscle_while_long(muscle):
    long = {head for slot in slots() for head in LIBRARY[slot.exercise].long_heads}
    assert muscle in {HEADS.get(head) for head in long}
