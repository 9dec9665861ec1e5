"""A starting load never makes a session heavier, and never undoes a stop."""

from hypothesis import given
from hypothesis import strategies as st

from periodization.loads import FixedSteps
from periodization.progression import Target
from periodization.progression.start import begun_with

LADDER = FixedSteps(2.5, 200, 2.5)
loads = st.integers(1, 80).map(lambda step: step * 2.5)


def test_without_a_target_the_session_begins_with_the_load_that_was_given():
    found = begun_with(Target(None, 12, "first", "first_time"), 40.0, LADDER)
    assert (found.load_kg, found.reps, found.action, found.code, found.params) == (
        40.0, 12, "first", "start_given", {"load": 40.0},
    )  # fmt: skip


def test_a_stop_stays():
    stop = Target(None, 8, "stop", "stop_pain")
    assert begun_with(stop, 40.0, LADDER) is stop


@given(loads, loads)
def test_the_lighter_of_two_counts(target, start):
    found = begun_with(Target(target, 10, "load_up", "raise", {}, ("a",)), start, LADDER)
    assert found.load_kg == min(target, start)
    assert found.evidence == ("a",)
