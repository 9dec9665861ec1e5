"""Facts of the trade. Common practice, no source."""

import pytest

from programs.document import document_from_json, labels, written
from programs.document.edits import Operation, apply_operation
from programs.services.tally import tally_week
from programs.services.tally_facts import load_anatomy, load_facts
from programs.services.targets import default_ranges
from tests.programs.factories import document, make_library, slot


@pytest.fixture
def library(db):
    return make_library()


def weekly_sets(doc):
    week = doc.blocks[0].weeks[0]
    anatomy = load_anatomy()
    facts = load_facts(one.exercise for day in week.days for one in day.slots)
    result = tally_week(week, facts, anatomy, default_ranges("intermediate", anatomy.groups), [0, 3])
    return {row.slug: row.sets for row in result.trained}


def first_day(library):
    return [slot("a", library.curl.pk, 4), slot("b", library.hammer.pk, 4), slot("c", library.reach.pk, 4)]


def test_three_exercises_of_four_sets_are_twelve_weekly_sets(library):
    """Common practice, no source."""
    assert weekly_sets(document_from_json(document(first_day(library))))["biceps"] == 12


def test_a_second_day_of_two_exercises_of_three_sets_makes_eighteen(library):
    """Common practice, no source."""
    second = [slot("d", library.curl.pk, 3), slot("e", library.reach.pk, 3)]
    assert weekly_sets(document_from_json(document(first_day(library), second)))["biceps"] == 18


def test_alternating_two_muscles_as_pairs_changes_neither_count(library):
    """Common practice, no source."""
    one, two, three = first_day(library)
    press = [slot("x", library.press.pk, 4), slot("y", library.push.pk, 4)]
    doc = document_from_json(document([one, press[0], two, press[1], three]))
    before = weekly_sets(doc)
    for key in ("w1a", "w1b"):
        doc = apply_operation(doc, Operation("pair", {"slot": key}))
    assert labels(doc.blocks[0].weeks[0].days[0].slots) == ["A1", "A2", "B1", "B2", ""]
    assert weekly_sets(doc) == before == {"biceps": 12, "triceps": 8}


@pytest.mark.parametrize("text", ["3-4 x 8-12 @ 1-2 RIR", "8-12 reps at 1-2 RIR for 3-4 sets", "3–4 × 8–12 @ 1–2 RIR"])
def test_the_usual_prescription_is_accepted_as_written_and_shown_as_written(library, text):
    """Common practice, no source: 8-12 repetitions at 1-2 RIR for 3-4 sets."""
    doc = document_from_json(document(first_day(library)))
    doc = apply_operation(doc, Operation("prescribe", {"slot": "w1a", "text": text}))
    assert written(doc.blocks[0].weeks[0].days[0].slots[0]) == "3–4 × 8–12 @ 1–2 RIR"
