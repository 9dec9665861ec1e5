"""A group's weekly sets over its slots: whole, in proportion, and never fewer for a larger total."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.share_out import share_out
from tests.published.tables import numbers, table

slots = st.lists(st.integers(1, 20), min_size=1, max_size=8)


@given(slots, st.integers(0, 200))
def test_the_total_is_met_wherever_slots_have_room(written, total):
    shares = share_out(written, total)
    assert sum(shares) == min(max(total, len(written)), 20 * len(written))
    assert all(1 <= sets <= 20 for sets in shares)


@given(slots, st.integers(0, 200), st.integers(0, 20))
def test_a_larger_total_never_takes_a_set_away(written, total, more):
    less, larger = share_out(written, total), share_out(written, total + more)
    assert all(a <= b for a, b in zip(less, larger, strict=True))


@given(slots)
def test_the_written_total_is_as_written(written):
    assert share_out(written, sum(written)) == tuple(written)


def test_a_slot_without_sets_is_refused():
    with pytest.raises(ValueError, match="at least one set"):
        share_out([3, 0], 5)


@pytest.mark.parametrize("row", table("ramp", "ramp-2"), ids=lambda r: f"{r['written']} to {r['total']}")
def test_worked_shares(row):
    assert list(share_out(numbers(row["written"]), int(row["total"]))) == numbers(row["shares"])
