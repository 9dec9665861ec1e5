"""A prescription for someone who never read one."""

import pytest

from logbook.wording import prescription_sentence

REPS = {"rep_unit": "reps"}


def asked(**values):
    return {"sets": 3, "sets_min": None, "reps_min": 8, "reps_max": 12, "rir_min": 1, "rir_max": 2} | values


@pytest.mark.parametrize(
    ("values", "unit", "says"),
    [
        ({}, "reps", "3 sets of 8–12 repetitions. End each when about 1–2 more would still go in good form"),
        ({"sets": 1, "reps_min": 1, "reps_max": 1}, "reps", "1 set of 1 repetition. End each when about 1–2 more"),
        ({"sets_min": 2}, "reps", "2–3 sets of 8–12 repetitions."),
        ({"rir_min": 0, "rir_max": 0}, "reps", "End each when no more would go in good form: RIR 0"),
        ({"reps_min": 20, "reps_max": 40}, "seconds", "3 sets, each held for 20–40 seconds. End each before"),
        ({"reps_min": 20, "reps_max": 20}, "steps", "3 sets of 20 steps."),
    ],
)
def test_prescription_is_said_in_whole_words(values, unit, says):
    assert says in prescription_sentence(asked(**values), {"rep_unit": unit})


def test_exercise_outside_the_plan_says_nothing():
    assert prescription_sentence(None, REPS) == ""
