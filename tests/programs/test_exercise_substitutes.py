"""What is offered instead of an exercise, and why."""

import pytest
from django.utils import timezone

from programs.models import ExerciseLink, Head, HeadCredit, Muscle, MuscleGroup
from programs.services.exercise_substitutes import cosine, substitutes_for
from programs.services.exercise_why import Mix, some, why_instead

OVERHEAD = "overhead-cable-triceps-extension"


def slugs(found):
    return [substitute.exercise.slug for substitute in found]


@pytest.mark.parametrize(
    ("a", "b", "expected"),
    [
        ({1: 1.0}, {1: 0.5}, 1.0),  # the same mix at half the dose is the same mix
        ({1: 1.0}, {2: 1.0}, 0.0),
        ({1: 1.0, 2: 1.0}, {1: 1.0}, 0.70711),
        ({}, {}, 1.0),
        ({1: 1.0}, {}, 0.0),
    ],
)
def test_likeness_is_the_cosine_of_the_credits(a, b, expected):
    assert cosine(a, b) == pytest.approx(expected, abs=1e-5)


def test_named_substitutes_come_first_in_their_order(library):
    curl = library.exercise("seated-leg-curl")
    named = ["prone-leg-curl", "sliding-leg-curl", "cable-standing-leg-curl"]
    found = substitutes_for(curl, None)
    assert slugs(found)[:3] == named
    assert all(s.listed and s.reason.startswith("named as a substitute") for s in found[:3])
    assert not any(s.listed for s in found[3:])
    assert [s.likeness for s in found[3:]] == sorted((s.likeness for s in found[3:]), reverse=True)


def test_load_at_long_length_counts(library):
    """Two exercises with the same credits: the one that also loads the heads while long comes first."""
    curl = library.exercise("seated-leg-curl")
    ExerciseLink.objects.filter(exercise=curl).delete()
    found = {s.exercise.slug: s for s in substitutes_for(curl, None, limit=50)}
    seated_like, prone = found["cable-standing-leg-curl"], found["prone-leg-curl"]
    assert seated_like.likeness > prone.likeness
    assert "while long" in seated_like.reason
    assert "loads only biceps femoris (short head) while long" in prone.reason


def test_only_what_is_at_hand_is_offered(library):
    curl = library.exercise("seated-leg-curl")
    band = library.equipment("band")
    for answer in (substitutes_for(curl, None, equipment=[band]), substitutes_for(curl, None, equipment=[band.pk])):
        assert answer
        assert {s.exercise.equipment for s in answer} == {band}
    assert substitutes_for(curl, None, equipment=[]) == []


def test_what_is_archived_or_of_another_practice_is_not_offered(library, world):
    curl = library.exercise("seated-leg-curl")
    prone = library.exercise("prone-leg-curl")
    credits = list(HeadCredit.objects.filter(exercise=prone))
    prone.pk, prone.practice = None, world.outsider_membership.practice
    prone.save()
    HeadCredit.objects.bulk_create(
        HeadCredit(exercise=prone, head=c.head, credit=c.credit, loaded_long=c.loaded_long) for c in credits
    )
    assert prone not in [s.exercise for s in substitutes_for(curl, world.practice, limit=200)]
    assert prone in [s.exercise for s in substitutes_for(curl, world.outsider_membership.practice, limit=200)]
    prone.archived_at = timezone.now()
    prone.save()
    assert prone not in [s.exercise for s in substitutes_for(curl, world.outsider_membership.practice, limit=200)]


def test_seconds_are_not_offered_for_repetitions_unless_named(library):
    hold = library.exercise("back-extension-hold")
    ExerciseLink.objects.filter(exercise=hold).delete()
    assert all(s.exercise.rep_unit == "seconds" for s in substitutes_for(hold, None, limit=200))


def test_the_number_of_queries_does_not_grow(library, django_assert_num_queries):
    curl = library.exercise("seated-leg-curl")
    with django_assert_num_queries(4):  # candidates with their equipment, credits, heads, links
        substitutes_for(curl, None, limit=200)


def head(pk, name, muscle, group=None, position=0):
    of = MuscleGroup(pk=group, name=f"group {group}") if group else None
    return Head(pk=pk, name=name, muscle=Muscle(name=muscle), group=of, position=position)


HEADS = {
    1: head(1, "long head", "triceps", group=9, position=1),
    2: head(2, "lateral head", "triceps", group=9, position=2),
    3: head(3, "anconeus", "anconeus", position=3),
}


SAME = "trains the same muscles as directly"


@pytest.mark.parametrize(
    ("before", "other", "said"),
    [
        (Mix({1: 1, 2: 1}, {1: 1}), Mix({1: 1, 2: 1}, {1: 1}), f"{SAME}; loads them while long too"),
        (Mix({1: 1, 2: 1}, {1: 1}), Mix({1: 1, 2: 1}, {}), f"{SAME}; without the load at long length"),
        (Mix({1: 1, 2: 1}, {}), Mix({1: 1, 2: 1}, {1: 1}), f"{SAME}; also loads triceps (long head) while long"),
        (
            Mix({1: 1, 2: 1, 3: 1}, {}),
            Mix({1: 1, 2: 1, 3: 0.5}, {}),
            "trains group 9 as directly, anconeus less",
        ),
        (
            Mix({1: 1, 2: 1}, {1: 1, 2: 1}),
            Mix({1: 1, 2: 0.5}, {1: 1}),
            "trains triceps (long head) as directly, triceps (lateral head) less; "
            "loads only triceps (long head) while long",
        ),
        (Mix({1: 0.5}, {}), Mix({1: 0.5}, {}), "trains a similar mix, none of it as directly"),
    ],
)
def test_the_reason_says_what_is_kept_and_what_is_lost(before, other, said):
    assert why_instead(before, other, HEADS, named=False) == said
    assert why_instead(before, other, HEADS, named=True) == f"named as a substitute; {said}"


def test_long_lists_of_heads_are_cut_and_counted():
    heads = {n: head(n, f"part {n}", "muscle", position=n) for n in range(1, 6)}
    assert some([3, 1, 2, 4], heads, heads) == "muscle (part 1), muscle (part 2) and 2 more"
