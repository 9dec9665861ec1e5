"""Properties of compliance."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.compliance import DoneSet, PlannedSlot, compliance

PLAN = [PlannedSlot("mon", "a", 3, 1, 3), PlannedSlot("mon", "b", 2), PlannedSlot("thu", "a", 3, 0, 2)]
done = st.lists(
    st.builds(
        DoneSet,
        st.sampled_from(["mon", "thu", "other", None]),
        st.sampled_from(["a", "b", "c", None]),
        st.none() | st.integers(0, 8).map(float),
        st.booleans(),
    ),
    max_size=20,
)


@given(done)
def test_shares_are_shares_and_sets_are_all_counted(some):
    found = compliance(PLAN, some)
    assert 0 <= found.sessions_share <= 1
    assert 0 <= found.sets_share <= 1
    assert found.effort_share is None or 0 <= found.effort_share <= 1
    assert found.sets_done + found.extra_sets == sum(not s.warm_up for s in some)


@given(done)
def test_order_changes_nothing(some):
    assert compliance(PLAN, some) == compliance(PLAN[::-1], some[::-1])


def test_extra_sets_of_one_exercise_do_not_fill_another():
    found = compliance(PLAN, [DoneSet("mon", "a", 2)] * 8)
    assert (found.sets_done, found.extra_sets, found.sessions_done) == (3, 5, 1)


def test_warm_ups_alone_are_no_session():
    found = compliance(PLAN, [DoneSet("mon", "a", None, warm_up=True)] * 3)
    assert (found.sessions_done, found.sets_done, found.effort_unknown) == (0, 0, 0)


def test_nothing_planned_has_no_share():
    found = compliance([], [DoneSet(None, None, 1)])
    assert (found.sessions_share, found.sets_share, found.volume_share) == (None, None, None)
    assert found.extra_sets == 1


def test_free_effort_is_not_judged():
    assert compliance(PLAN, [DoneSet("mon", "b", 0)] * 2).effort_share is None


@pytest.mark.parametrize(("tolerance", "share"), [(0, 0.0), (0.5, 0.0), (1, 1.0)])
def test_tolerance_is_an_argument(tolerance, share):
    assert compliance(PLAN, [DoneSet("mon", "a", 4)], rir_tolerance=tolerance).effort_share == share
