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
    "ramp",
    "ramp-off",
    "release",
    "order-sides",
]
# Of the exercises that are drawn, some lead with one muscle group, some with another, some with none.
LEADS = {1: "biceps", 2: "biceps", 3: "triceps", 4: "triceps"}
RULES = st.dictionaries(
    st.sampled_from(["every.rir", "every.load", "group.biceps.sets", "group.triceps.sets", "group.triceps.rir"]),
    st.sampled_from(["9-15", "12", "3-1", "2"]),
)


def apply(doc, operation):
    """Keys are numbered here: what hypothesis draws from them must be the same on each run."""
    counter = count()
    return apply_operation(doc, operation, lambda: f"k{next(counter)}", LEADS)


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
        "ramp": {"block": one(Block), "weeks": str(abs(number) + 1), "deload": number > 1, "rules": draw(RULES)},
        "ramp-off": {"block": one(Block)},
        "release": {"key": any_key},
        "order-sides": {"slot": one(Slot), "weaker_first": number > 0},
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
    # A ramp writes the week's copy, and the weeks after it, itself.
    if place.block.ramp and not isinstance(place.node, Block) and place.week_number and not place.week.by_hand:
        return
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


@settings(deadline=None)
@given(edited(), st.data())
def test_a_week_by_hand_is_changed_by_nothing_but_itself(doc, data):
    mine = [place.node.key for place in places(doc) if isinstance(place.node, Week) and place.node.by_hand]
    if not mine:
        return
    operation = data.draw(operations(doc))
    key = data.draw(st.sampled_from(mine))
    try:
        after = apply(doc, operation)
    except EditError:
        return
    own = {key, find(doc, key).block.key, *(part.key for day in find(doc, key).node.days for part in (day, *day.slots))}
    if key in keys(after) and not own & set(map(str, operation.params.values())):
        assert find(after, key).node == find(doc, key).node


@settings(deadline=None)
@given(edited())
def test_what_a_ramp_made_once_it_makes_again(doc):
    """A change that says nothing leaves every week as it is."""
    block = doc.blocks[0]
    assert apply(doc, Operation("nudge", {"key": block.key, "by": 0})) == doc


@settings(deadline=None)
@given(edited())
def test_sets_never_fall_and_effort_never_eases_before_a_deload(doc):
    for block in doc.blocks:
        if block.ramp is None:
            continue
        rising = block.weeks[:-1] if block.ramp.deload else block.weeks
        by_origin: dict[str, list[Slot]] = {}
        for week in rising:
            for one in (one for day in week.days for one in day.slots):
                if not week.by_hand and not one.by_hand:
                    by_origin.setdefault(one.origin, []).append(one)
        for course in by_origin.values():
            assert [one.sets[1] for one in course] == sorted(one.sets[1] for one in course)
            assert [one.rir for one in course] == sorted((one.rir for one in course), reverse=True)
