"""What may be done instead of an exercise of the plan."""

import datetime as dt

import pytest

from logbook.reads.kept import kept_pages
from logbook.reads.sheet import sheet_for
from programs.models import ClientLimit, ExerciseLink, Limit
from tests.logbook.factories import NOW, make_exercise, make_planned

DAY = NOW.date()


@pytest.fixture
def listed(gym):
    """A session of two curls which list the same three substitutes, one of them a held exercise."""
    gym.other = make_exercise("bar-curl", "barbell")
    gym.subs = [make_exercise(f"sub-{n}", "dumbbell") for n in range(3)]
    gym.held = make_exercise("hold", "dumbbell", rep_unit="seconds")
    for exercise in (gym.curl, gym.other):
        for position, other in enumerate([*gym.subs, gym.held]):
            ExerciseLink.objects.create(exercise=exercise, other=other, kind="substitute", position=position)
    gym.planned = make_planned(gym.client, DAY, {"exercise": gym.curl}, {"exercise": gym.other})
    return gym


def offered(gym, **more):
    data = sheet_for(gym.client, today=DAY, planned=gym.planned, **more).data
    return [(entry["slot"], entry["exercise"]["id"]) for entry in data["swaps"]]


def test_every_listed_substitute_is_offered_in_each_slot_that_lists_it(listed):
    slots = list(listed.planned.slots.values_list("pk", flat=True))
    assert offered(listed) == [(slot, sub.pk) for slot in slots for sub in listed.subs]


def test_a_substitute_that_was_chosen_is_not_offered_twice(listed):
    slot = listed.planned.slots.first()
    first = listed.subs[0]
    data = sheet_for(listed.client, today=DAY, planned=listed.planned, swap=f"swap-{slot.pk}-{first.pk}").data
    assert [entry["exercise"]["id"] for entry in data["exercises"]] == [listed.curl.pk, first.pk, listed.other.pk]
    assert data["exercises"][1]["instead_of"] == "Curl"


def test_what_the_clients_limits_close_is_not_offered(listed):
    who = {"client": listed.client, "since": DAY - dt.timedelta(days=1), "told_by": listed.coach}
    ClientLimit.objects.create(exercise=listed.subs[1], **who)
    assert listed.subs[1].pk not in [exercise for _, exercise in offered(listed)]
    assert len(offered(listed)) == 4
    knee = Limit.objects.create(slug="knee", name="knee", position=1)
    listed.subs[0].limits.add(knee)
    for sub in listed.subs:
        sub.limits_judged = True
        sub.save()
    ClientLimit.objects.create(limit=knee, **who)
    assert {exercise for _, exercise in offered(listed)} == {listed.subs[2].pk}


def test_phone_fetches_the_page_anew_when_the_substitutes_change(listed):
    def version():
        return kept_pages(listed.client, today=DAY)[0]["version"]

    before = version()
    assert version() == before
    ExerciseLink.objects.filter(other=listed.subs[0]).delete()
    assert version() != before


def test_cost_does_not_grow_with_substitutes(listed, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        sheet_for(listed.client, today=DAY, planned=listed.planned)
