"""The next target against published steps of load. The rest of its rules are chosen; docs/methods/progression.md."""

from datetime import date

import pytest

from periodization.flags import Exposure, SetFact
from periodization.loads import FixedSteps, Listed, PlatePairs, Stack
from periodization.progression import DEFAULT, Prescription, next_target, table_change_kg
from tests.published.tables import table

ASKED = Prescription(3, 6, 8, 1, 3)
LADDERS = {
    "bar": PlatePairs(20.0, ((20.0, 4), (10.0, 1), (5.0, 1), (2.5, 1), (1.25, 1))),
    "steps of 5": FixedSteps(5, 200, 5),
    "steps of 0.5": FixedSteps(0.5, 200, 0.5),
    "stack": Stack((90.0, 100.0, 110.0), (2.5,)),
    "few": Listed((80.0, 100.0, 108.0)),
}


def after(kg, reps, ladder, rir=2.0):
    sets = tuple(SetFact(f"s{n}", kg, r, rir) for n, r in enumerate(reps))
    return next_target([Exposure(date(2026, 3, 2), "a", "squat", sets=sets)], ASKED, ladder)


@pytest.mark.parametrize("row", table("progression", "progression-2"), ids=lambda r: f"SOURCED-{r['reported RIR']}")
def test_change_of_load_of_the_published_table(row):
    """SOURCED: J Hum Kinet 2024;91:87-103, table 1D."""
    assert table_change_kg(float(row["reported RIR"]), 2) == float(row["kg"])


@pytest.mark.parametrize("reps", [(8, 8, 8), (9, 9, 9), (10, 10, 10)], ids=str)
@pytest.mark.parametrize("ladder", LADDERS)
def test_a_raise_lands_between_2_and_10_percent(ladder, reps):
    """SOURCED: ACSM 2009, 2-10 % when one or two repetitions more than wanted can be done. 100 kg: 102 to 110."""
    found = after(100, reps, LADDERS[ladder])
    assert found.action == "load_up"
    assert 102 <= found.load_kg <= 110


def test_twenty_kg_with_steps_of_2_5_prefers_repetitions():
    """DERIVED: 22.5 / 20 is 12.5 % more, over the bound."""
    found = after(20, (8, 8, 8), FixedSteps(2.5, 100, 2.5))
    assert (found.action, found.load_kg, found.params["percent"]) == ("reps_up", 20, 12.5)


def test_a_session_that_was_not_completed_raises_nothing():
    """SOURCED (protocol): Maeo 2023 raised load only after sessions completed without failing."""
    assert after(100, (8, 8), LADDERS["bar"]).action == "hold"
    assert after(100, (8, 8, 4), LADDERS["bar"]).action == "hold"


def test_five_percent_a_session_is_inside_the_bounds():
    """SOURCED: Maeo 2023 went up by 5 % of 1RM a session."""
    assert DEFAULT.step_min <= 0.05 <= DEFAULT.step_max


def test_two_sets_of_two_over_the_goal_raise_without_waiting_for_a_second_session():
    """MEMORY: the 2-for-2 rule waits for two sessions. Ours does not, and says so in its methods page."""
    assert after(100, (10, 10, 10), LADDERS["bar"]).action == "load_up"
