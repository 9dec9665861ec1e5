"""Changes to the slots of a training day."""

from dataclasses import replace
from typing import Any

from django.utils.translation import gettext as _

from programs.document import limits
from programs.document.edits.checks import clean_text
from programs.document.edits.parts import with_children
from programs.document.edits.registry import operation
from programs.document.errors import EditError
from programs.document.find import Place, find, put
from programs.document.keys import MakeKey
from programs.document.model import Day, Document, Slot
from programs.document.pairs import LETTERS
from programs.document.prescription import read_prescription
from programs.document.ranges import read_range, show_range
from programs.document.write import written


@operation("add-slot")
def add_slot(
    document: Document, fresh: MakeKey, *, day: str, exercise: int, rest_s: int = 120, text: str = ""
) -> Document:
    """Put an exercise at the end of the day, with 3 x 8-12 @ 1-2 RIR unless `text` prescribes otherwise."""
    parent = find(document, day, Day).node
    slot = Slot(fresh(), exercise, rest_s=min(max(rest_s, limits.REST_S[0]), limits.REST_S[1]))
    if text.strip():
        slot = replace(slot, **read_prescription(text).said())
    return with_children(document, parent, (*parent.slots, slot))


@operation("move-slot")
def move_slot(document: Document, fresh: MakeKey, *, slot: str, day: str, index: int) -> Document:
    """Put the slot at `index` (from 0) of `day`. It never lands between the partners of a pair: it goes past them.

    Into and out of a ramp's base week nothing moves: every other week would gain or lose an exercise with it.
    """
    place, goal = find(document, slot, Slot), find(document, day, Day)
    if _base_of(place) != _base_of(goal):
        raise EditError(_("In a base week, an exercise moves between its own days only. Add it there, or remove it."))
    target = goal.node
    old_index = place.number - 1
    same_day = place.day is not None and place.day.key == day
    if not same_day:
        document = with_children(document, place.day, tuple(s for s in place.day.slots if s.key != slot))
        target = find(document, day, Day).node
    parts = [part for part in target.slots if part.key != slot]
    index = min(max(index, 0), len(parts))
    moved = place.node if same_day else replace(place.node, pair="")
    while 0 < index < len(parts) and parts[index - 1].pair and parts[index - 1].pair == parts[index].pair != moved.pair:
        index += 1 if not same_day or index >= old_index else -1
    parts.insert(index, moved)
    return with_children(document, target, tuple(parts))


def _base_of(place: Place) -> str:
    """Return the key of the ramp's base week that the place is in; "" elsewhere."""
    return place.week.key if place.week and not place.week_number else ""


@operation("swap")
def swap(document: Document, fresh: MakeKey, *, slot: str, exercise: int) -> Document:
    """Put another exercise in the slot; its prescription, place and pair stay."""
    find(document, slot, Slot)
    return put(document, slot, lambda part: (replace(part, exercise=exercise),))


@operation("pair")
def pair(document: Document, fresh: MakeKey, *, slot: str) -> Document:
    """Do the slot in alternation with the next one; a pair that either belongs to grows."""
    place = find(document, slot, Slot)
    slots = list(place.day.slots)
    if place.number == len(slots):
        raise EditError(_("There is no exercise after this one to pair it with."))
    first, second = slots[place.number - 1], slots[place.number]
    used = {part.pair for part in slots}
    letter = first.pair or second.pair or next(one for one in LETTERS if one not in used)
    joined = {first.pair or letter, second.pair or letter}
    slots = [
        replace(part, pair=letter) if part in (first, second) or (part.pair and part.pair in joined) else part
        for part in slots
    ]
    return with_children(document, place.day, tuple(slots))


@operation("unpair")
def unpair(document: Document, fresh: MakeKey, *, slot: str) -> Document:
    """Take the slot out of its pair; it then stands after the partners that are left."""
    place = find(document, slot, Slot)
    letter = place.node.pair
    alone = replace(place.node, pair="")
    others = [part for part in place.day.slots if part.key != slot]
    if letter and sum(part.pair == letter for part in others) > 1:
        after = max(number for number, part in enumerate(others) if part.pair == letter) + 1
    else:
        after = place.number - 1
    return with_children(document, place.day, (*others[:after], alone, *others[after:]))


@operation("order-sides")
def order_sides(document: Document, fresh: MakeKey, *, slot: str, weaker_first: bool) -> Document:
    """Say whether the weaker side of a one-sided exercise comes first, or the left one."""
    find(document, slot, Slot)
    return put(document, slot, lambda part: (replace(part, weaker_first=weaker_first),))


@operation("prescribe")
def prescribe(document: Document, fresh: MakeKey, *, slot: str, **fields: str) -> Document:
    """Change the prescription. `fields` are texts as typed: `text` (a whole line) and any of sets, reps, rir, rest_s,
    tempo, note. Only what differs from the slot as shown is changed, so a form may send all of its fields."""
    old = find(document, slot, Slot).node
    new: dict[str, Any] = {}
    line = fields.pop("text", None)
    if line is not None and line.strip() != written(old):
        new |= read_prescription(line).said()
    for name, value in fields.items():
        if name not in READERS:
            raise EditError(_("That change is not known."))
        if " ".join(value.split()) != shown(old, name):
            new[name] = READERS[name](value)
    return put(document, slot, lambda part: (replace(part, **new),))


def shown(slot: Slot, field: str) -> str:
    """Return the field's value as its form field shows it."""
    value = getattr(slot, field)
    return show_range(value) if isinstance(value, tuple) else str(value)


READERS = {
    "sets": lambda text: read_range(text, limits.SETS, "sets", _("Sets")),
    "reps": lambda text: read_range(text, limits.REPS, "reps", _("Repetitions")),
    "rir": lambda text: read_range(text, limits.RIR, "rir", _("RIR")),
    "rest_s": lambda text: _single(text),
    "tempo": lambda text: clean_text(text, limits.TEMPO, "tempo"),
    "note": lambda text: clean_text(text, limits.NOTE, "note"),
}


def _single(text: str) -> int:
    low, high = read_range(text, limits.REST_S, "rest_s", _("Rest in seconds"))
    if low != high:
        raise EditError(_("Rest is one number of seconds."), "rest_s")
    return low
