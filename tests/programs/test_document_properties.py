"""Whatever is done to a program, in whatever order, these hold."""

from itertools import count

from hypothesis import given, settings
from hypothesis import strategies as st

from programs.document import EditError, document_from_json, document_to_json, labels
from programs.document.edits import Operation, apply_operation
from programs.document.edits.parts import parent_of
from programs.document.find import find, keys, places
from programs.document.model import Block, Day, Slot, Week, children
from tests.programs.factories import document, slot

START = document_from_json(document([slot("a", 1), slot("b", 2)], [slot("c", 3)], weeks=2))
TEXTS = st.sampled_from(["3 x 8-12 @ 1-2 RIR", "3-4 x 6", "5 x 5 @ 0", "@3", "2 min"])
NAMES = [
    "remove",
    "copy",
    "copy-into",
    "nudge",
    "add-block",
    "add-week",
    "add-day",
    "add-slot",
    "move-slot",
    "swap",
    "pair",
    "unpair",
    "prescribe",
    "mark-deload",
]


def apply(doc, operation):
    """Keys are numbered here: what hypothesis draws from them must be the same on each run."""
    counter = count()
    return apply_operation(doc, operation, lambda: f"k{next(counter)}")


@st.composite
def operations(draw, doc):
    """Draw a change that speaks of parts which are there."""
    parts = {kind: [p.node.key for p in places(doc) if isinstance(p.node, kind)] for kind in (Block, Week, Day, Slot)}

    def one(kind):
        return draw(st.sampled_from(parts[kind])) if parts[kind] else "none"

    name = draw(st.sampled_from(NAMES))
    any_key = draw(st.sampled_from(sorted(keys(doc))))
    number = draw(st.integers(-3, 5))
    params = {
        "remove": {"key": any_key},
        "copy": {"key": any_key},
        "copy-into": {"key": one(Day), "into": one(Week)},
        "nudge": {"key": any_key, "by": number},
        "add-block": {},
        "add-week": {"block": one(Block)},
        "add-day": {"week": one(Week)},
        "add-slot": {"day": one(Day), "exercise": abs(number) + 1},
        "move-slot": {"slot": one(Slot), "day": one(Day), "index": number},
        "swap": {"slot": one(Slot), "exercise": abs(number) + 1},
        "pair": {"slot": one(Slot)},
        "unpair": {"slot": one(Slot)},
        "prescribe": {"slot": one(Slot), "text": draw(TEXTS)},
        "mark-deload": {"week": one(Week), "deload": number > 0},
    }[name]
    return Operation("copy" if name == "copy-into" else name, params)


@st.composite
def edited(draw):
    """Draw a document after up to fifteen changes."""
    doc = START
    for _ in range(draw(st.integers(0, 15))):
        try:
            doc = apply(doc, draw(operations(doc)))
        except EditError:
            continue
    return doc


@settings(deadline=None)
@given(edited())
def test_what_edits_make_is_a_program_with_unique_keys(doc):
    all_keys = [place.node.key for place in places(doc)]
    assert len(all_keys) == len(set(all_keys))
    assert document_from_json(document_to_json(doc)) == doc


@settings(deadline=None)
@given(edited())
def test_a_letter_is_shared_by_neighbours_and_never_stands_alone(doc):
    for place in places(doc):
        if not isinstance(place.node, Day):
            continue
        pairs = [one.pair for one in place.node.slots]
        for letter in set(pairs) - {""}:
            first, count = pairs.index(letter), pairs.count(letter)
            assert count > 1
            assert pairs[first : first + count] == [letter] * count
        used = [mark for mark in labels(place.node.slots) if mark]
        assert len(used) == len(set(used))


def content(part):
    """Everything a part says, without keys."""
    if isinstance(part, Slot):
        return (part.exercise, part.sets, part.reps, part.rir, part.rest_s, part.tempo, part.note)
    return tuple(content(child) for child in children(part))


@settings(deadline=None)
@given(edited(), st.data())
def test_a_copy_says_the_same_and_leaves_the_rest_alone(doc, data):
    key = data.draw(st.sampled_from(sorted(keys(doc))))
    try:
        after = apply(doc, Operation("copy", {"key": key}))
    except EditError:
        return
    place = find(doc, key)
    siblings = [content(part) for part in children(parent_of(doc, place))]
    siblings.insert(place.number, content(place.node))
    assert [content(part) for part in children(parent_of(after, find(after, key)))] == siblings
    assert keys(doc) < keys(after)


@settings(deadline=None)
@given(edited(), st.data())
def test_moving_a_slot_loses_none_and_invents_none(doc, data):
    slots = sorted(place.node.key for place in places(doc) if isinstance(place.node, Slot))
    days = sorted(place.node.key for place in places(doc) if isinstance(place.node, Day))
    if not slots or not days:
        return
    params = {
        "slot": data.draw(st.sampled_from(slots)),
        "day": data.draw(st.sampled_from(days)),
        "index": data.draw(st.integers(0, 9)),
    }
    try:
        after = apply(doc, Operation("move-slot", params))
    except EditError:
        return
    assert keys(after) == keys(doc)
    assert find(after, params["slot"]).day.key == params["day"]
    assert content(find(after, params["slot"]).node) == content(find(doc, params["slot"]).node)
