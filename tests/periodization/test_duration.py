"""Properties of the session's length."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.duration import WARM_UP_MINUTES, SlotTime, session_minutes

slot = st.builds(
    SlotTime,
    st.integers(0, 6),
    st.integers(1, 20),
    st.floats(1, 8),
    st.integers(0, 300),
    st.none() | st.sampled_from(["A", "B"]),
    st.booleans(),
    st.integers(0, 180),
)
slots = st.lists(slot, max_size=6)


def test_nothing_takes_no_time():
    assert session_minutes([]) == 0
    assert session_minutes([SlotTime(0, 10, 4, 120)]) == 0


def test_one_set_has_no_rest():
    assert session_minutes([SlotTime(1, 10, 3, 600, change_seconds=30)], warm_up_minutes=0) == 1


@given(slots)
def test_one_more_set_is_never_shorter(some):
    for i, one in enumerate(some):
        longer = [*some[:i], replace(one, sets=one.sets + 1), *some[i + 1 :]]
        assert session_minutes(longer) >= session_minutes(some) - 1e-9


@given(slots)
def test_longer_rest_is_never_shorter(some):
    longer = [replace(one, rest_seconds=one.rest_seconds + 30) for one in some]
    assert session_minutes(longer) >= session_minutes(some) - 1e-9


@given(slots, st.floats(0, 20))
def test_a_warm_up_is_added_to_what_is_trained(some, minutes):
    trained = any(one.sets for one in some)
    assert session_minutes(some, minutes) == pytest.approx(session_minutes(some, 0) + (minutes if trained else 0))


def test_a_session_counts_the_same_warm_up_unless_told_otherwise():
    one = [SlotTime(1, 10, 3, 600)]
    assert session_minutes(one) == session_minutes(one, 0) + WARM_UP_MINUTES


def test_paired_sets_of_unequal_number_finish_alone():
    long, short = SlotTime(4, 10, 4, 90, "A"), SlotTime(2, 10, 4, 90, "A")
    assert session_minutes([long, short]) > session_minutes([short, short])
    assert session_minutes([long, short]) < session_minutes([replace(long, pair=None), replace(short, pair=None)])
