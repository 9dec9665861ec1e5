"""A block: sets rise, RIR falls, the deload lies below the start, and leaving the target range is said."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.ramp import RampSpec, plan_ramp, plan_ramps
from periodization.sentences import sentence
from periodization.targets import TargetRange
from tests.published.tables import numbers, table

specs = st.builds(
    lambda start, more, rir_to, rir_more, floor, width: RampSpec(
        start, start + more, rir_to + rir_more, rir_to, TargetRange(float(floor), float(floor + width), "chosen")
    ),
    st.integers(2, 20),
    st.integers(0, 15),
    st.integers(0, 3),
    st.integers(0, 3),
    st.integers(0, 15),
    st.integers(0, 12),
)


@given(spec=specs, weeks=st.integers(2, 12), deload=st.booleans())
def test_ramp_is_monotone_and_honest(spec, weeks, deload):
    plan = plan_ramp(weeks, spec, deload)
    block = [w for w in plan if not w.deload]
    assert [w.number for w in plan] == list(range(1, weeks + 1))
    assert all(a.sets <= b.sets and a.rir >= b.rir for a, b in pairwise(block))
    assert (block[0].sets, block[0].rir) == (spec.start_sets, spec.rir_from)
    if len(block) > 1:
        assert (block[-1].sets, block[-1].rir) == (spec.peak_sets, spec.rir_to)
    assert [w.deload for w in plan] == [False] * len(block) + [True] * deload
    if deload:
        assert 1 <= plan[-1].sets < spec.start_sets
        assert plan[-1].rir > spec.rir_from
    for week in plan:
        outside = not spec.target.floor <= week.sets <= spec.target.ceiling
        assert bool(week.notes) is outside
        assert all(sentence(note) for note in week.notes)
    assert plan == plan_ramp(weeks, spec, deload)


@pytest.mark.parametrize("row", table("ramp", "ramp-1"), ids=lambda r: r["sets"])
def test_worked_block(row):
    spec = RampSpec(*(int(row[name]) for name in ("sets from", "sets to", "RIR from", "RIR to")))
    plan = plan_ramp(int(row["weeks"]), spec)
    assert [w.sets for w in plan] == numbers(row["sets"])
    assert [w.rir for w in plan] == numbers(row["RIR"])


def test_each_group_has_its_own_ramp():
    plans = plan_ramps(4, {"lats": RampSpec(10, 14, 3, 1), "chest": RampSpec(6, 9, 2, 1)})
    assert list(plans) == ["chest", "lats"]
    assert [w.sets for w in plans["chest"]] == [6, 8, 9, 4]


@pytest.mark.parametrize(
    ("weeks", "spec"),
    [
        (1, RampSpec(8, 12, 3, 1)),
        (6, RampSpec(12, 8, 3, 1)),
        (6, RampSpec(0, 8, 3, 1)),
        (6, RampSpec(8, 12, 1, 3)),
        (6, RampSpec(1, 4, 3, 1)),
    ],
    ids=["no week beside the deload", "falling", "no set", "effort easing", "no room for a deload"],
)
def test_what_is_no_block_is_refused_in_words(weeks, spec):
    with pytest.raises(ValueError, match=r"\w+ .*\."):
        plan_ramp(weeks, spec)
