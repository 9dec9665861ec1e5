"""What a written week amounts to."""

import pytest

from programs.document import document_from_json
from programs.services.tally import day_minutes, tally_week
from programs.services.tally_facts import load_anatomy, load_facts
from programs.services.targets import default_ranges
from tests.programs.factories import document, make_library, slot


@pytest.fixture
def library(db):
    return make_library()


def tally(*days, weekdays=(0, 3), status="intermediate"):
    doc = document_from_json(document(*days))
    week = doc.blocks[0].weeks[0]
    anatomy = load_anatomy()
    facts = load_facts(one.exercise for day in week.days for one in day.slots)
    return tally_week(week, facts, anatomy, default_ranges(status, anatomy.groups), list(weekdays))


def groups(result):
    return {row.slug: row.sets for row in (*result.trained, *result.untrained)}


def test_indirect_sets_count_half_and_heads_are_listed_under_their_group(library):
    result = tally([slot("a", library.row.pk, 4), slot("b", library.curl.pk, 3)])
    assert groups(result) == {"biceps": 5.0, "triceps": 0.0, "lats": 4.0}
    biceps = next(row for row in result.trained if row.slug == "biceps")
    assert [(head.name, head.sets) for head in biceps.heads] == [("biceps-head", 5.0)]
    assert [row.slug for row in result.untrained] == ["triceps"]


def test_a_head_without_a_target_is_listed_apart(library):
    result = tally([slot("a", library.hammer.pk, 4)])
    assert [(head.name, head.sets) for head in result.other_heads] == [("grip-head", 2.0)]


def test_a_range_of_sets_counts_its_upper_number(library):
    assert groups(tally([slot("a", library.curl.pk, [3, 4])]))["biceps"] == 4.0


def test_sets_far_from_failure_are_not_hard_sets(library):
    result = tally([slot("a", library.curl.pk, 3, rir=[3, 5])])
    assert (groups(result)["biceps"], result.easy_sets) == (0.0, 3.0)


@pytest.mark.parametrize(("sets", "standing"), [(9, "under"), (10, "inside"), (16, "inside"), (17, "over")])
def test_sets_are_judged_by_the_range_of_the_training_status(library, sets, standing):
    assert tally([slot("a", library.curl.pk, sets)]).trained[0].standing == standing


def test_a_group_due_again_within_two_days_is_named_also_across_the_week(library):
    day = [slot("a", library.curl.pk)]
    close = tally(day, [{**day[0], "key": "b"}], weekdays=(0, 1))
    assert [(gap.group, gap.first, gap.second, gap.hours) for gap in close.gaps] == [("biceps", 0, 1, 24)]
    wrap = tally(day, [{**day[0], "key": "b"}], weekdays=(0, 6))
    assert [(gap.first, gap.second) for gap in wrap.gaps] == [(6, 0)]
    assert tally(day, [{**day[0], "key": "b"}], weekdays=(0, 2)).gaps == ()


def minutes(*slots):
    doc = document_from_json(document(list(slots)))
    return day_minutes(doc.blocks[0].weeks[0].days[0], load_facts(one["exercise"] for one in slots))


def test_more_rest_more_sets_and_one_side_at_a_time_take_longer_and_pairs_less(library):
    base = minutes(slot("a", library.curl.pk), slot("b", library.press.pk))
    assert minutes(slot("a", library.curl.pk, rest_s=180), slot("b", library.press.pk)) > base
    assert minutes(slot("a", library.curl.pk, 4), slot("b", library.press.pk)) > base
    assert minutes(slot("a", library.curl.pk, pair="A"), slot("b", library.press.pk, pair="A")) < base
    assert minutes(slot("a", library.curl.pk, tempo="5-2-1-0"), slot("b", library.press.pk)) > base
    library.curl.laterality = "single"
    library.curl.save()
    assert minutes(slot("a", library.curl.pk), slot("b", library.press.pk)) > base


def test_the_facts_take_the_same_queries_for_few_and_many_exercises(library, django_assert_num_queries):
    every = [library.curl.pk, library.hammer.pk, library.reach.pk, library.press.pk, library.row.pk]
    for ids in (every[:1], every):
        with django_assert_num_queries(2):  # exercises with equipment; credits with heads
            load_facts(ids)
