"""An exercise that no load fits any more: when it is said, and what range would be smaller."""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.flags import Flag
from periodization.loads import Assisted, BodyWeightPlus, FixedSteps, NoLoad
from periodization.progression import outgrown, smaller_range
from periodization.questions import ask_variant
from periodization.sentences import sentence
from tests.periodization.flag_logs import TODAY, exposure

PAGE = Path(__file__).resolve().parents[2] / "docs" / "methods" / "questions.md"
EQUIPMENT = {"body alone": NoLoad(), "dumbbells by 2": FixedSteps(2.0, 50.0, 2.0)}


def history(load, weakest, rir=2.0, **values):
    """Sessions three days apart, the latest three days ago; each three sets of 8 to 12."""
    asked = {"reps_min": 8, "reps_max": 12, "rir_min": 1.0, "rir_max": 3.0, **values}
    return [
        replace(exposure(3 * (len(weakest) - place), load, (fewest, fewest + 1, fewest), rir), **asked)
        for place, fewest in enumerate(weakest)
    ]


def worked():
    text = PAGE.read_text(encoding="utf-8").split("| equipment |")[1]
    for line in text.splitlines()[2:]:
        if not line.startswith("|"):
            break
        yield tuple(cell.strip() for cell in line.strip("|").split("|"))


@pytest.mark.parametrize(("equipment", "kg", "weakest", "rir", "asked", "smaller"), list(worked()))
def test_no_load_fits_where_the_page_says(equipment, kg, weakest, rir, asked, smaller):
    fewest = [int(one) for one in weakest.split()]
    log = history(float(kg), fewest, None if rir == "?" else float(rir))
    found = outgrown(log, EQUIPMENT[equipment])
    assert (found.way if found else "none") == asked
    less = smaller_range(8, 12, fewest[-1]) if asked == "easier" else None
    assert ("none" if less is None else f"{less[0]} to {less[1]}") == smaller


@pytest.mark.parametrize(
    ("ladder", "load", "easier"),
    [
        (BodyWeightPlus(FixedSteps(2.5, 60, 2.5)), 0.0, True),
        (BodyWeightPlus(FixedSteps(2.5, 60, 2.5)), 2.5, False),
        (Assisted(FixedSteps(5, 80, 5)), 80.0, True),
        (Assisted(FixedSteps(5, 80, 5)), 40.0, False),
    ],
)
def test_with_the_body_as_load_too_hard_means_nothing_can_be_taken_off(ladder, load, easier):
    found = outgrown(history(load, [6, 6]), ladder)
    assert (found is not None) is easier


def test_where_a_heavier_load_is_only_too_far_a_step_the_target_speaks_and_nothing_is_asked():
    assert outgrown(history(14.0, [17, 17, 17]), EQUIPMENT["dumbbells by 2"]) is None


@pytest.mark.parametrize(
    ("change", "said"),
    [({}, True), ({"deload": True}, False), ({"sets_prescribed": 4}, False), ({"reps_max": None}, False)],
)
def test_deloads_missing_sets_and_what_was_not_prescribed_do_not_count(change, said):
    assert (outgrown(history(0.0, [13, 14, 15], **change), NoLoad()) is not None) is said


def test_what_was_not_trained_lately_is_not_asked_about():
    log = history(0.0, [13, 14, 15])
    assert outgrown(log, NoLoad(), since=log[-1].day) is not None
    assert outgrown(log, NoLoad(), since=TODAY + timedelta(1)) is None


@given(st.permutations(range(3)))
def test_the_order_of_the_log_does_not_matter(order):
    log = history(0.0, [13, 14, 15])
    assert outgrown([log[place] for place in order], NoLoad()) == outgrown(log, NoLoad())


@given(st.integers(1, 30), st.integers(0, 20), st.integers(0, 40), st.sampled_from(["reps", "seconds", "steps"]))
def test_a_smaller_range_is_lower_as_wide_and_holds_what_was_done(low, width, fewest, counted):
    found = smaller_range(low, low + width, fewest, counted)
    assert found is None or (found[0] == fewest < low and found[1] - found[0] == width and found[0] >= 3)


def test_each_way_has_its_sentence_and_pain_and_holding_back_go_first():
    found = {
        "1": outgrown(history(0.0, [7, 6]), NoLoad()),
        "2": outgrown(history(0.0, [13, 14, 15]), NoLoad()),
        "3": outgrown(history(50.0, [15, 16, 17]), EQUIPMENT["dumbbells by 2"]),
    }
    questions = ask_variant([], found)
    assert [one.subjects for one in questions] == [("1",), ("2",), ("3",)]
    texts = [sentence(one.reasons[0]) for one in questions]
    assert "nothing lighter" in texts[0]
    assert "no load to add" in texts[1]
    pain = Flag(
        "pain.report", 1, "pain", "stop", "site", "elbow",
        opened_on=TODAY, evidence_ids=(), code="c", clears_code="d", stopped=("1",), stopped_on=(TODAY,),
    )  # fmt: skip
    assert [one.subjects for one in ask_variant([pain], found, held=["2"])] == [("3",)]
