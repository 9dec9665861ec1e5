"""What is said of a week, and that each remedy does what it says."""

from functools import partial

import pytest

from programs.document import document_from_json
from programs.document.edits import apply_operation
from programs.services.advice import advise
from programs.services.advice.scene import as_do
from programs.services.targets import default_ranges
from programs.services.week_view import desk_of
from programs.views.program_operation import operation_from
from tests.programs.factories import document, make_exercise, make_head, make_library, slot


@pytest.fixture
def library(db):
    return make_library()


def week_of(*days):
    return document_from_json(document(*days))


def said(world, doc, weekdays=(0, 3), minutes=75, status="intermediate"):
    """Return the advice on the first week of a document, by (code, subject)."""
    desk = desk_of(doc.blocks[0].weeks[0], [], partial(default_ranges, status), list(weekdays), minutes)
    return {(one.code, one.subject): one for one in advise(desk, world.coach)}


def apply_do(doc, remedy):
    """Make the change as the button would."""
    return apply_operation(doc, operation_from({"do": remedy.do}))


def sums(doc, weekdays=(0, 3)):
    return desk_of(doc.blocks[0].weeks[0], [], partial(default_ranges, "intermediate"), list(weekdays), 75).sums


def test_a_group_under_its_floor_gets_a_set_more_and_the_effect_is_said(world, library):
    doc = week_of([slot("a", library.curl.pk, 5)], [slot("b", library.hammer.pk, 4)])
    advice = said(world, doc)["under", "biceps"]
    assert advice.text == "Biceps: 9 sets, under 10."
    more, another = advice.remedies
    assert (more.label, more.effect.split(";")[0]) == ("Add a set to Hammer grip curl", "biceps 9 → 10 sets")
    assert sums(apply_do(doc, more)).groups["biceps"] == 10
    assert another.label == "Add Long reach curl to Day 2, 1 set"
    assert sums(apply_do(doc, another)).groups["biceps"] == 10


def test_a_group_over_its_ceiling_gets_a_set_less(world, library):
    doc = week_of([slot("a", library.curl.pk, 9)], [slot("b", library.hammer.pk, 8)])
    (less,) = said(world, doc)["over", "biceps"].remedies
    assert less.label == "Drop a set of Wand curl"
    assert sums(apply_do(doc, less)).groups["biceps"] == 16


def test_what_a_group_gets_along_with_others_asks_for_nothing(world, library):
    assert not [key for key in said(world, week_of([slot("a", library.row.pk, 4)])) if key[1] == "biceps"]


def test_two_days_too_close_are_mended_by_a_move(world, library):
    doc = week_of(
        [slot("a", library.curl.pk, 5)], [slot("b", library.hammer.pk, 5), slot("c", library.press.pk, 5)], []
    )
    advice = next(one for key, one in said(world, doc, weekdays=(0, 1, 3)).items() if key[0] == "gap")
    assert advice.text == "Biceps: due on Day 1 (Monday) and again on Day 2 (Tuesday), under 48 hours later."
    (move,) = advice.remedies
    assert "48 h kept for biceps" in move.effect
    assert not sums(apply_do(doc, move), (0, 1, 3)).gaps


def test_where_no_single_move_helps_it_says_so(world, library):
    doc = week_of([slot("a", library.curl.pk)], [slot("b", library.curl.pk)], [slot("c", library.curl.pk)])
    gaps = [one for key, one in said(world, doc, weekdays=(0, 1, 2)).items() if key[0] == "gap"]
    assert len(gaps) == 2
    assert all(one.remedies or "Other weekdays" in one.reason for one in gaps)


def test_a_long_session_is_shortened_by_a_pair_that_does_not_compete(world, library):
    doc = week_of(
        [slot("a", library.curl.pk, 5), slot("b", library.hammer.pk, 5), slot("c", library.press.pk, 5)],
    )
    advice = said(world, doc, weekdays=(0,), minutes=30)["minutes", "w1d1"]
    pair, drop = advice.remedies
    assert pair.label == "Pair Hammer grip curl with Overhead wand press-down"
    before, after = sums(doc, (0,)).minutes["w1d1"], sums(apply_do(doc, pair), (0,)).minutes["w1d1"]
    assert after < before
    assert f"Day 1 {round(before)} → {round(after)} min" in pair.effect
    assert sums(apply_do(doc, drop), (0,)).minutes["w1d1"] < before


def test_a_head_without_a_set_is_covered_by_a_swap_or_an_addition(world, library):
    second = make_head("triceps-long", library.triceps)
    reach = make_exercise("Behind-the-head press", {library.tri: 1, second: 1})
    doc = week_of([slot("a", library.press.pk, 6)], [slot("b", library.push.pk, 6)])
    advice = said(world, doc)["head", "triceps"]
    assert advice.text.startswith("Triceps: 12 sets, and hardly one for")
    (swap,) = advice.remedies
    assert swap.label.endswith(f"for {reach.name}")
    assert sums(apply_do(doc, swap)).heads["triceps-long"] == 6


def test_a_group_without_load_at_long_length_gets_a_swap(world, library):
    library.reach.credits.update(loaded_long=True)
    doc = week_of([slot("a", library.curl.pk, 6)], [slot("b", library.hammer.pk, 5)])
    (swap,) = said(world, doc)["long", "biceps"].remedies
    assert swap.label == "Swap Wand curl for Long reach curl"
    assert sums(apply_do(doc, swap)).long["biceps"] == 6
    assert ("long", "biceps") not in said(world, apply_do(doc, swap))


def test_a_well_written_week_has_nothing_said_of_it(world, library):
    doc = week_of([slot("a", library.curl.pk, 6)], [slot("b", library.hammer.pk, 6)])
    assert said(world, doc) == {}


def test_no_remedy_brings_an_exercise_that_is_put_away_or_of_another_practice(world, library):
    library.reach.archived_at = library.hammer.archived_at = "2026-01-01T00:00Z"
    library.reach.save()
    library.hammer.save()
    (more,) = said(world, week_of([slot("a", library.curl.pk, 9)]))["under", "biceps"].remedies
    assert as_do(operation_from({"do": more.do})) == more.do


def test_many_exercises_ask_the_database_as_often_as_few(world, library, django_assert_num_queries):
    few, many = week_of([slot("a", library.curl.pk)]), week_of(
        [slot(f"a{number}", pk) for number, pk in enumerate([library.curl.pk, library.row.pk, library.press.pk] * 4)]
    )  # fmt: skip
    for doc in (few, many):
        desk = desk_of(doc.blocks[0].weeks[0], [], partial(default_ranges, "intermediate"), [0], 30)
        advise(desk, world.coach)  # who the coach is, is asked once
        with django_assert_num_queries(2):  # exercises, credits
            advise(desk, world.coach)
