"""A client's differences applied to a document: what each kind does, and what none of them may do."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from programs.document import Block, Day, Document, Slot, Week, document_from_json, document_to_json
from programs.document.adapt import ORDER, Change, adapt, slots_in, start_loads


def document(*days: tuple[Slot, ...], weeks: int = 1) -> Document:
    made = []
    for number in range(1, weeks + 1):
        named = tuple(
            Day(f"w{number}d{n}", f"Day {n}", tuple(replace(slot, key=f"w{number}{slot.key}") for slot in slots))
            for n, slots in enumerate(days, 1)
        )
        made.append(Week(f"w{number}", days=named))
    return Document((Block("b", "Block", tuple(made)),))


BENCH, ROW, CURL, FLOOR = 1, 2, 3, 4
PLAN = document(
    (Slot("a", BENCH, sets=(4, 4)), Slot("b", ROW, sets=(3, 4)), Slot("c", CURL)), (Slot("d", BENCH),), weeks=2
)


def shown(result: Document) -> list[list[tuple]]:
    return [
        [(slot.exercise, slot.sets, slot.rir, slot.pair) for slot in day.slots]
        for day in result.blocks[0].weeks[0].days
    ]


def test_a_swap_holds_wherever_the_exercise_stands_and_keeps_the_prescription():
    result = adapt(PLAN, [Change("swap", BENCH, FLOOR)])
    assert [slot.exercise for slot in slots_in(result)] == [FLOOR, ROW, CURL, FLOOR] * 2
    assert slots_in(result)[0].sets == (4, 4)


def test_swaps_at_once_do_not_follow_on_each_other_and_a_later_step_sees_what_they_made():
    both = [Change("swap", BENCH, ROW), Change("swap", ROW, BENCH)]
    assert [slot.exercise for slot in slots_in(adapt(PLAN, both))[:3]] == [ROW, BENCH, CURL]
    then = [Change("swap", BENCH, FLOOR), Change("one-side", FLOOR, 9), Change("leave-out", FLOOR)]
    assert [slot.exercise for slot in slots_in(adapt(PLAN, then))[:3]] == [9, ROW, CURL]


def test_a_swap_that_names_slots_leaves_the_others():
    result = adapt(PLAN, [Change("swap", BENCH, FLOOR, slots=frozenset({"w1d"}))])
    assert [slot.exercise for slot in slots_in(result)] == [BENCH, ROW, CURL, FLOOR, BENCH, ROW, CURL, BENCH]


def test_what_names_its_slots_comes_before_what_holds_everywhere_whichever_was_first():
    here, everywhere = Change("swap", BENCH, CURL, slots=frozenset({"w1d"})), Change("leave-out", BENCH)
    for both in ([here, everywhere], [everywhere, here]):
        assert [slot.exercise for slot in slots_in(adapt(PLAN, both))] == [ROW, CURL, CURL, ROW, CURL]
    out = [Change("swap", BENCH, FLOOR), Change("leave-out", slots=frozenset({"w1d"}))]
    assert [slot.exercise for slot in slots_in(adapt(PLAN, out))] == [FLOOR, ROW, CURL, FLOOR, ROW, CURL, FLOOR]


def test_what_is_left_out_is_gone_and_its_partner_stands_alone():
    paired = document((Slot("a", BENCH, "A"), Slot("b", ROW, "A"), Slot("c", CURL)))
    assert [(s.exercise, s.pair) for s in slots_in(adapt(paired, [Change("leave-out", ROW)]))] == [(1, ""), (3, "")]


@pytest.mark.parametrize(
    ("factor", "sets", "expected"),
    [(0.75, (4, 4), (3, 3)), (0.5, (3, 4), (1, 2)), (0.1, (1, 2), (1, 1)), (1.25, (4, 4), (5, 5))],
)
def test_sets_are_scaled_half_a_set_goes_down_and_none_below_one(factor, sets, expected):
    one = document((Slot("a", BENCH, sets=sets),))
    assert slots_in(adapt(one, [Change("scale", factor=factor)]))[0].sets == expected


def test_fewer_sets_more_reserve_and_a_careful_first_session_add_up():
    changes = [
        Change("careful", slots=frozenset({"w1a"}), rir=2),
        Change("rir", rir=1),
        Change("fewer", slots=frozenset({"w1a", "w2a"}), less=1),
    ]
    assert shown(adapt(PLAN, changes))[0][0] == (BENCH, (3, 3), (4, 5), "")
    assert slots_in(adapt(PLAN, changes))[4].rir == (2, 3)


def test_what_is_paired_shares_a_letter_and_is_relettered_in_reading_order():
    result = adapt(PLAN, [Change("pair", pairs=(("w1b", "w1c"), ("w2a", "w2b")))])
    assert [slot.pair for slot in slots_in(result)] == ["", "A", "A", "", "A", "A", "", ""]


def test_a_pair_of_which_one_was_left_out_is_none():
    result = adapt(PLAN, [Change("pair", pairs=(("w1b", "w1c"),)), Change("leave-out", CURL)])
    assert not any(slot.pair for slot in slots_in(result))


def test_a_start_goes_to_the_first_slot_of_the_exercise_as_adapted():
    changes = [Change("swap", BENCH, FLOOR), Change("start", FLOOR, load_kg=40.0), Change("start", BENCH, load_kg=60.0)]
    assert start_loads(adapt(PLAN, changes), changes) == {"w1a": 40.0}


keys = st.sampled_from([slot.key for slot in slots_in(PLAN)] + ["gone"])
changes = st.builds(
    Change,
    kind=st.sampled_from(ORDER),
    exercise=st.none() | st.integers(1, 5),
    to=st.none() | st.integers(1, 9),
    slots=st.frozensets(keys, max_size=4),
    factor=st.floats(0.1, 2.0),
    less=st.integers(0, 5),
    rir=st.integers(0, 5),
    pairs=st.lists(st.lists(keys, min_size=2, max_size=3, unique=True).map(tuple), max_size=2).map(tuple),
)


@given(st.lists(changes, max_size=6))
def test_whatever_is_changed_is_still_a_program_with_the_same_keys(some):
    result = adapt(PLAN, some)
    assert document_from_json(document_to_json(result)) == result
    assert {slot.key for slot in slots_in(result)} <= {slot.key for slot in slots_in(PLAN)}
    assert [day.key for week in result.blocks[0].weeks for day in week.days] == ["w1d1", "w1d2", "w2d1", "w2d2"]


@given(st.lists(changes, max_size=5, unique_by=lambda change: change.kind), st.randoms())
def test_the_order_in_which_different_kinds_were_recorded_does_not_matter(some, random):
    mixed = list(some)
    random.shuffle(mixed)
    assert adapt(PLAN, mixed) == adapt(PLAN, some)


def test_nothing_changed_is_the_program_itself():
    assert adapt(PLAN, []) is PLAN
    with pytest.raises(ValueError, match="not in"):
        adapt(PLAN, [Change("stretch")])
