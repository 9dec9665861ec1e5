"""What each change does to a program."""

import pytest

from programs.document import EditError, document_from_json, labels
from programs.document.edits import Operation, apply_operation
from tests.programs.factories import document, slot


def make(*days, weeks=1):
    return document_from_json(document(*days, weeks=weeks))


def do(doc, name, /, **params):
    return apply_operation(doc, Operation(name, params))


def day(doc, number=0, week=0):
    return doc.blocks[0].weeks[week].days[number]


def order(doc, number=0):
    return [one.exercise for one in day(doc, number).slots]


THREE = make([slot("a", 1), slot("b", 2), slot("c", 3)], [slot("d", 4)])


def test_a_new_slot_stands_last_with_the_usual_prescription():
    after = do(THREE, "add-slot", day="w1d1", exercise=9, rest_s=75)
    new = day(after).slots[-1]
    assert (new.exercise, new.sets, new.reps, new.rir, new.rest_s) == (9, (3, 3), (8, 12), (1, 2), 75)


def test_a_new_slot_can_be_prescribed_in_the_same_line():
    assert day(do(THREE, "add-slot", day="w1d1", exercise=9, text="3-4 x 6")).slots[-1].sets == (3, 4)


@pytest.mark.parametrize(
    ("index", "expected"), [(0, [3, 1, 2]), (1, [1, 3, 2]), (2, [1, 2, 3]), (99, [1, 2, 3]), (-5, [3, 1, 2])]
)
def test_a_slot_moves_within_its_day(index, expected):
    assert order(do(THREE, "move-slot", slot="w1c", day="w1d1", index=index)) == expected


def test_a_slot_moves_to_another_day():
    after = do(THREE, "move-slot", slot="w1a", day="w1d2", index=0)
    assert (order(after, 0), order(after, 1)) == ([2, 3], [1, 4])


def test_weaker_side_first_is_said_and_taken_back():
    after = do(THREE, "order-sides", slot="w1a", weaker_first=True)
    assert [one.weaker_first for one in day(after).slots] == [True, False, False]
    assert do(after, "order-sides", slot="w1a", weaker_first=False) == THREE


def test_pairing_letters_the_slots_and_a_third_joins_them():
    after = do(THREE, "pair", slot="w1a")
    assert labels(day(after).slots) == ["A1", "A2", ""]
    assert labels(day(do(after, "pair", slot="w1b")).slots) == ["A1", "A2", "A3"]


def test_a_slot_moving_past_a_pair_does_not_come_between_it():
    paired = do(THREE, "pair", slot="w1b")
    after = do(paired, "move-slot", slot="w1a", day="w1d1", index=1)
    assert (order(after), labels(day(after).slots)) == ([2, 3, 1], ["A1", "A2", ""])
    back = do(after, "move-slot", slot="w1a", day="w1d1", index=1)
    assert order(back) == [1, 2, 3]


def test_when_a_partner_leaves_the_other_stands_alone():
    paired = do(THREE, "pair", slot="w1a")
    for after in (do(paired, "remove", key="w1a"), do(paired, "move-slot", slot="w1a", day="w1d2", index=0)):
        assert labels(day(after).slots) == ["", ""]


def test_unpairing_the_middle_of_three_leaves_a_pair_and_one_alone():
    three = do(do(THREE, "pair", slot="w1a"), "pair", slot="w1b")
    after = do(three, "unpair", slot="w1b")
    assert (order(after), labels(day(after).slots)) == ([1, 3, 2], ["A1", "A2", ""])


def test_the_last_slot_has_nothing_to_pair_with():
    with pytest.raises(EditError, match="no exercise after"):
        do(THREE, "pair", slot="w1c")


def test_a_swap_keeps_prescription_and_pair():
    before = do(do(THREE, "pair", slot="w1a"), "prescribe", slot="w1a", text="4 x 5 @ 1 RIR", note="slow")
    old, new = day(before).slots[0], day(do(before, "swap", slot="w1a", exercise=8)).slots[0]
    assert new.exercise == 8
    assert (new.sets, new.reps, new.rir, new.pair, new.note) == (old.sets, old.reps, old.rir, "A", "slow")


def test_a_form_that_sends_every_field_changes_only_what_differs():
    all_fields = {"sets": "3", "reps": "8–12", "rir": "1–2", "rest_s": "120", "tempo": "", "note": ""}
    same = do(THREE, "prescribe", slot="w1a", text="3 × 8–12 @ 1–2 RIR", **all_fields)
    assert same == THREE
    one = do(THREE, "prescribe", slot="w1a", text="3 × 8–12 @ 1–2 RIR", **{**all_fields, "reps": "6 to 8"})
    assert day(one).slots[0].reps == (6, 8)
    line = do(THREE, "prescribe", slot="w1a", text="5 × 8–12 @ 1–2 RIR", **all_fields)
    assert day(line).slots[0].sets == (5, 5)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("sets", "0"),
        ("reps", "12-8"),
        ("rir", "11"),
        ("rest_s", "901"),
        ("rest_s", "60-90"),
        ("tempo", "x" * 13),
        ("sets", "many"),
    ],
)
def test_a_field_that_is_wrong_is_named(field, value):
    with pytest.raises(EditError) as refused:
        do(THREE, "prescribe", slot="w1a", **{field: value})
    assert refused.value.field == field


def test_a_copied_day_stands_behind_the_first_and_can_go_to_another_week():
    two = make([slot("a", 1)], [slot("b", 2)], weeks=2)
    assert [d.name for d in do(two, "copy", key="w1d1").blocks[0].weeks[0].days] == ["Day 1", "Day 1", "Day 2"]
    after = do(two, "copy", key="w1d1", into="w2")
    assert [len(week.days) for week in after.blocks[0].weeks] == [2, 3]
    with pytest.raises(EditError):
        do(two, "copy", key="w1", into="w2")


def test_a_new_week_has_the_days_of_the_one_before_and_nothing_on_them():
    after = do(THREE, "add-week", block="b1")
    assert [(d.name, d.slots) for d in after.blocks[0].weeks[1].days] == [("Day 1", ()), ("Day 2", ())]


def test_days_weeks_and_blocks_change_places():
    assert order(do(THREE, "nudge", key="w1d1", by=1), 0) == [4]
    blocks = do(do(THREE, "add-block", name="Second"), "nudge", key="b1", by=1)
    assert [block.name for block in blocks.blocks] == ["Second", "Block 1"]
    with pytest.raises(EditError):
        do(THREE, "nudge", key="w1a", by=1)


def test_there_is_always_somewhere_to_write():
    with pytest.raises(EditError, match="at least one block"):
        do(THREE, "remove", key="b1")
    with pytest.raises(EditError, match="at least one week"):
        do(THREE, "remove", key="w1")


def test_a_week_holds_seven_training_days_at_most():
    full = make(*[[] for _ in range(7)])
    with pytest.raises(EditError, match="7 training days"):
        do(full, "add-day", week="w1")


def test_deload_mark_week_note_and_names():
    after = do(
        do(do(THREE, "mark-deload", week="w1", deload=True), "note-week", week="w1", note=" easy \n week "),
        "rename",
        key="w1d1",
        name="Pull",
    )
    week = after.blocks[0].weeks[0]
    assert (week.deload, week.note, week.days[0].name) == (True, "easy week", "Pull")
    with pytest.raises(EditError):
        do(THREE, "rename", key="w1d1", name="  ")


@pytest.mark.parametrize(
    ("name", "params"),
    [("explode", {}), ("remove", {}), ("remove", {"key": "w1a", "twice": 1}), ("remove", {"key": "gone"}),
     ("pair", {"slot": "w1d1"}), ("add-slot", {"day": "w1a", "exercise": 1}),
     ("prescribe", {"slot": "w1a", "load": "5"})],
)  # fmt: skip
def test_a_change_that_cannot_be_made_is_refused(name, params):
    with pytest.raises(EditError):
        apply_operation(THREE, Operation(name, params))
