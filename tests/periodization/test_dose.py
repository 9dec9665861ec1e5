"""Properties of weekly volume."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.dose import CountedSet, planned_sets, roll_up, weekly_volume

MUSCLES = {"triceps-long": "triceps", "triceps-lateral": "triceps", "pec-clavicular": "pec", "pec-sternal": "pec"}
GROUPS = {head: {"triceps": "arms", "pec": "chest"}[muscle] for head, muscle in MUSCLES.items()} | {"biceps": "arms"}
CREDITS = {
    "press": {"pec-sternal": 1, "pec-clavicular": 0.5, "triceps-lateral": 0.5},
    "pushdown": {"triceps-lateral": 1, "triceps-long": 0.7},
    "curl": {"biceps": 1},
    "walk": {},
}

sets = st.builds(
    CountedSet,
    st.sampled_from([*CREDITS, "unheard of"]),
    st.none() | st.sampled_from([0.0, 1.0, 2.5, 4.0, 4.5, 7.0]),
    st.booleans(),
    st.sampled_from(["both", "left", "right"]),
)
weeks = st.lists(sets, max_size=30)


def count(some, limit=4.0):
    return weekly_volume(some, CREDITS, MUSCLES, GROUPS, limit)


@given(weeks, st.integers(0, 1000))
def test_order_changes_nothing_bit_for_bit(week, seed):
    shuffled = week[:]
    random.Random(seed).shuffle(shuffled)
    assert count(week) == count(shuffled)


@given(weeks, weeks)
def test_sessions_add_up(first, second):
    whole, a, b = count(first + second), count(first), count(second)
    for name in ("by_head", "by_muscle", "by_group", "direct_by_head", "direct_by_muscle", "total_by_muscle"):
        parts = {k: getattr(a, name).get(k, 0) + getattr(b, name).get(k, 0) for k in getattr(whole, name)}
        assert getattr(whole, name) == pytest.approx(parts)
    for name in ("hard_sets", "easy_sets", "warm_up_sets", "unknown_effort_sets"):
        assert getattr(whole, name) == getattr(a, name) + getattr(b, name)


@given(weeks)
def test_every_set_is_counted_somewhere_once(week):
    found = count(week)
    weight = sum(1 if s.side == "both" else 0.5 for s in week)
    assert found.hard_sets + found.easy_sets + found.warm_up_sets == weight


@given(weeks)
def test_a_muscle_never_gets_more_than_one_set_per_set(week):
    found = count(week)
    for muscle, total in found.total_by_muscle.items():
        heads = [found.by_head[h] for h, m in MUSCLES.items() if m == muscle and h in found.by_head]
        assert max(heads, default=0) - 1e-9 <= found.by_muscle[muscle] <= total + 1e-9
        assert found.direct_by_muscle.get(muscle, 0) <= total


@given(weeks)
def test_warm_ups_never_count(week):
    working = [s for s in week if not s.warm_up]
    assert count(week).by_head == count(working).by_head
    assert count(week).hard_sets == count(working).hard_sets


def test_all_warm_ups_are_no_sets():
    found = count([CountedSet("press", None, warm_up=True)] * 5)
    assert (found.hard_sets, found.by_group, found.warm_up_sets) == (0, {}, 5)


def test_limit_belongs_to_the_hard_sets():
    assert count([CountedSet("curl", 4.0)]).hard_sets == 1
    assert count([CountedSet("curl", 4.5)]).easy_sets == 1
    assert count([CountedSet("curl", 4.5)], limit=5).hard_sets == 1


def test_unknown_effort_counts_and_is_said():
    found = count([CountedSet("curl", None), CountedSet("curl", 2)])
    assert (found.by_group["arms"], found.unknown_effort_sets) == (2, 1)


def test_two_sides_are_one_set_and_one_side_is_half():
    both = [CountedSet("curl", 1, side="left"), CountedSet("curl", 2, side="right")]
    assert count(both).by_muscle == {"biceps": 1}
    assert count(both[:1]).by_muscle == {"biceps": 0.5}


def test_a_pair_of_which_one_side_was_easy_counts_half():
    assert count([CountedSet("curl", 1, side="left"), CountedSet("curl", 6, side="right")]).hard_sets == 0.5


def test_roll_up_is_by_set_and_not_by_total():
    """Three presses and three pushdowns: 4.5 sets for the muscle, though its heads add up to 6.6."""
    found = count([CountedSet("press", 2)] * 3 + [CountedSet("pushdown", 2)] * 3)
    assert found.by_muscle["triceps"] == 4.5
    assert found.by_head["triceps-lateral"] == 4.5
    assert found.by_head["triceps-long"] == pytest.approx(2.1)


def test_exercises_without_credit_are_named():
    assert count([CountedSet("walk", 2), CountedSet("unheard of", 2)]).unmapped == ("unheard of", "walk")


def test_planned_and_done_are_counted_alike():
    assert count(planned_sets("press", 3, 3.0)) == count([CountedSet("press", 3.0)] * 3)


@pytest.mark.parametrize("credit", [-0.1, 1.1, float("nan")])
def test_impossible_credit_is_refused(credit):
    with pytest.raises(ValueError, match="between 0 and 1"):
        weekly_volume([CountedSet("x", 1)], {"x": {"biceps": credit}}, {}, {})


def test_a_child_without_a_parent_stands_for_itself():
    assert roll_up({"biceps": 1.0}, {}) == {"biceps": 1.0}


def test_groups_part_a_muscle_and_may_leave_a_head_out():
    """One deltoid, three targets: an overhead press is one set of deltoid, and not one of each of its groups."""
    credit = {"deltoid-clavicular": 1, "deltoid-acromial": 0.5, "deltoid-spinal": 0.25}
    groups = {"deltoid-clavicular": "front-shoulder", "deltoid-acromial": "side-shoulder"}
    found = weekly_volume([CountedSet("x", 1)] * 2, {"x": credit}, dict.fromkeys(credit, "deltoid"), groups)
    assert found.by_muscle == {"deltoid": 2}
    assert found.by_group == {"front-shoulder": 2, "side-shoulder": 1}
