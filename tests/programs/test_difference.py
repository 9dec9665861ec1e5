"""Two documents, and what differs in words."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from programs.document import document_from_json
from programs.document.difference import differences
from programs.document.difference_words import runs, said
from programs.document.edits import Operation, apply_operation
from programs.document.keys import with_new_keys
from programs.document.match import content, matches
from programs.document.model import Document
from programs.document.order import out_of_order
from tests.programs.factories import document, slot
from tests.programs.test_document_properties import edited

NAMES = {1: "Curl", 2: "Press", 3: "Row", 4: "Dip"}
START = document_from_json(document([slot("a", 1), slot("b", 2)], [slot("c", 3)], weeks=3))


def edit(doc, *operations):
    for name, params in operations:
        doc = apply_operation(doc, Operation(name, params))
    return doc


def words(before, after):
    return [" | ".join(part for part in said(one, NAMES) if part) for one in differences(before, after)]


def prescribe(key, text):
    return "prescribe", {"slot": key, "text": text}


@pytest.mark.parametrize(
    ("operations", "expected"),
    [
        ([prescribe("w1a", "4 x 8-12 @ 1-2 RIR")], ["Curl: 3 → 4 sets | Day 1, week 1"]),
        (
            [prescribe("w2b", "3-4 x 6-10 @ 2 RIR, rest 90 s")],
            ["Press: 3 → 3–4 sets, 8–12 → 6–10 repetitions, RIR 1–2 → 2, rest 120 → 90 s | Day 1, week 2"],
        ),
        ([prescribe(f"w{n}a", "4 x 8-12") for n in (1, 2, 3)], ["Curl: 3 → 4 sets | Day 1, every week"]),
        ([prescribe(f"w{n}a", "4 x 8-12") for n in (1, 2)], ["Curl: 3 → 4 sets | Day 1, weeks 1–2"]),
        ([("swap", {"slot": "w1a", "exercise": 4})], ["Curl → Dip | Day 1, week 1"]),
        ([("add-slot", {"day": "w1d2", "exercise": 4})], ["Dip added: 3 × 8–12 @ 1–2 RIR | Day 2, week 1"]),
        ([("remove", {"key": "w1a"})], ["Curl removed | Day 1, week 1"]),
        ([("move-slot", {"slot": "w1b", "day": "w1d1", "index": 0})], ["Press moved within the day | Day 1, week 1"]),
        ([("move-slot", {"slot": "w1b", "day": "w1d2", "index": 0})], ["Press moved here from Day 1 | Day 2, week 1"]),
        ([("remove", {"key": "w1d2"})], ["Day 2 removed: Row | week 1"]),
        ([("add-day", {"week": "w3", "name": "Extra"})], ["Extra added: no exercise | week 3"]),
        ([("rename", {"key": "w1d2", "name": "Pull"})], ["Day 2 is now called Pull | week 1"]),
        ([("nudge", {"key": "w1d2", "by": -1})], ["Day 2 moved within the week | week 1"]),
        ([("mark-deload", {"week": "w3", "deload": True})], ["Marked as deload | week 3"]),
        ([("note-week", {"week": "w3", "note": "Easy."})], ["Note to the week: “Easy.” | week 3"]),
        ([("remove", {"key": "w2"})], ["Week removed | week 2"]),
        ([("copy", {"key": "w1"})], ["Week added | week 2"]),
        ([("nudge", {"key": "w1", "by": 2})], ["Moved to another place | week 3"]),
        ([("pair", {"slot": "w1a"})], [f"{name} is done in a pair | Day 1, week 1" for name in ("Curl", "Press")]),
        ([("rename", {"key": "b1", "name": "Base"})], ["Renamed, before: Block 1"]),
        ([("add-block", {"name": "Peak"}), ("remove", {"key": "b1"})],
         ["Block added, 1 week", "Block removed, 3 weeks"]),
    ],
)  # fmt: skip
def test_a_change_is_said_in_words(operations, expected):
    assert words(START, edit(START, *operations)) == expected


def test_a_ramp_is_said_of_the_block_and_what_it_makes_of_each_week():
    rules = {"every.rir": "2-1", "every.load": "2.5"}
    changes = words(START, edit(START, ("ramp", {"block": "b1", "weeks": "3", "deload": False, "rules": rules})))
    assert changes[0] == "Its weeks follow a ramp"
    assert "Curl: RIR 1–2 → 2–3 | Day 1, week 1" in changes
    assert any(one.startswith("Row: ") and "load 100 → 105 % of" in one for one in changes)


def test_the_same_program_says_nothing():
    assert differences(START, START) == []


def test_a_copy_under_new_keys_is_the_same_program():
    counter = iter(range(10**6))
    copy = Document(tuple(with_new_keys(block, lambda: f"n{next(counter)}") for block in START.blocks))
    assert differences(START, copy) == []
    changed = edit(copy, prescribe(copy.blocks[0].weeks[0].days[0].slots[0].key, "5 x 8-12"))
    assert words(START, changed) == ["Curl: 3 → 5 sets | Day 1, week 1"]


def test_a_week_written_anew_from_a_copy_stands_where_the_removed_one_stood():
    """Copy week 1, take week 2 away: what follows week 1 says the same."""
    assert differences(START, edit(START, ("copy", {"key": "w1"}), ("remove", {"key": "w2"}))) == []


@settings(deadline=None, max_examples=60)
@given(edited(), edited())
def test_whatever_differs_is_said_and_nothing_else(before, after):
    changes = differences(before, after)
    assert all(said(one, NAMES).text for one in changes)
    if [content(block) for block in before.blocks] == [content(block) for block in after.blocks]:
        assert not [one for one in changes if "moved" not in one.code and "to-day" not in one.code]
    if not changes:
        empty = [content(replace(block, key="x")) for block in before.blocks]
        assert pairless(empty) == pairless([content(replace(block, key="x")) for block in after.blocks])


def pairless(value):
    """Letters of pairs follow from what is paired."""
    if isinstance(value, tuple | list):
        return [pairless(one) for one in value]
    return "A" if isinstance(value, str) and len(value) == 1 and value.isupper() else value


@settings(deadline=None, max_examples=60)
@given(edited(), edited())
def test_a_part_is_matched_once_and_with_its_own_kind(before, after):
    from programs.document.match import walk

    mapped = matches(before, after)
    old, new = ({part.key: type(part) for part in walk(doc)} for doc in (before, after))
    assert len(set(mapped.values())) == len(mapped)
    assert all(old[one] is new[other] for one, other in mapped.items())


@given(st.permutations(range(7)))
def test_taking_out_what_moved_leaves_the_rest_in_order(now):
    moved = out_of_order(now, range(7))
    rest = [one for one in now if one not in moved]
    assert rest == sorted(rest)
    assert bool(moved) == (list(now) != sorted(now))


def test_neighbouring_weeks_are_put_together():
    assert runs([1, 2, 3, 5, 7, 8]) == "1–3, 5, 7–8"
