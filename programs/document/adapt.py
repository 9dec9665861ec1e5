"""One client's differences from a program, applied to its document. Deterministic, and without a database."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from programs.document import limits
from programs.document.model import Block, Day, Document, Range, Slot, Week
from programs.document.pairs import LETTERS, tidy

# In this order, whatever the order in which they were recorded. Each step is asked about what the one before made of a
# slot: what is swapped is counted as what it becomes, and two swaps at once do not follow on each other. Of several
# about one slot in the first step the last counts, and what names its slots (a few days elsewhere) comes last.
STEPS = (("swap", "leave-out"), ("one-side",), ("pair",), ("scale",), ("fewer",), ("rir",), ("careful",), ("start",))
ORDER = tuple(kind for step in STEPS for kind in step)


T = TypeVar("T")
# Of these a slot feels nothing: pairs are of a day, a starting load is of the dated rows.
NO_SLOT = frozenset({"pair", "start"})
STEP_OF = {kind: place for place, step in enumerate(STEPS) for kind in step}


@dataclass(frozen=True, slots=True)
class Change:
    """`slots` are keys; empty: wherever `exercise` is written, and without an exercise everywhere.

    `factor` multiplies sets (scale), `less` sets are taken off (fewer), `rir` is added to both ends (rir, careful),
    `pairs` are groups of keys that are done in alternation. No exercise keeps less than one set.
    """

    kind: str
    exercise: int | None = None
    to: int | None = None
    slots: frozenset[str] = frozenset()
    factor: float = 1.0
    less: int = 0
    rir: int = 0
    pairs: tuple[tuple[str, ...], ...] = ()
    load_kg: float | None = None

    def meets(self, key: str, exercise: int) -> bool:
        """Say whether the change is about the slot with this key, which holds this exercise."""
        if self.slots:
            return key in self.slots
        return self.exercise is None or exercise == self.exercise


def adapt(document: Document, changes: Iterable[Change]) -> Document:
    """Return the document as one client gets it; keys stay. A change about what is not there does nothing.

    ValueError for a kind that is not known.
    """
    ordered = sorted(changes, key=_place)
    if not ordered:
        return document
    changed = _Changed(ordered)
    pairs = [keys for change in ordered if change.kind == "pair" for keys in change.pairs]
    if not pairs and not changed.changes:
        return document
    paired = {key for keys in pairs for key in keys}

    def day(part: Day) -> Day:
        slots = [slot for one in part.slots if (slot := changed(one)) is not None]
        own = any(slot.key in paired for slot in slots)
        if not own and len(slots) == len(part.slots) and all(a is b for a, b in zip(slots, part.slots, strict=True)):
            return part
        return tidy(replace(part, slots=tuple(_paired(slots, pairs) if own else slots)))

    def week(part: Week) -> Week:
        return _kept(part, "days", tuple(day(one) for one in part.days))

    def block(part: Block) -> Block:
        return _kept(part, "weeks", tuple(week(one) for one in part.weeks))

    return _kept(document, "blocks", tuple(block(one) for one in document.blocks))


# What a change can make of a slot: exercise, sets, RIR, and whether the weaker side comes first; None: it is left out.
Values = tuple[int, Range, Range, bool]


class _Changed:
    """What the changes make of slots. The weeks of a program are much alike: most slots are touched by none, and what
    has been worked out for one holds for all with the same values that no change names by their key."""

    def __init__(self, ordered: Iterable[Change]) -> None:
        self.changes = [one for one in ordered if one.kind not in NO_SLOT]
        self.keys = frozenset(key for one in self.changes for key in one.slots)
        self.exercises = {one.exercise for one in self.changes if not one.slots}
        self.known: dict[Values, Values | None] = {}

    def __call__(self, slot: Slot) -> Slot | None:
        """Return the slot after every change that is about it; None when it is left out."""
        named = slot.key in self.keys
        if not (named or None in self.exercises or slot.exercise in self.exercises):
            return slot
        values = slot.exercise, slot.sets, slot.rir, slot.weaker_first
        if named:
            after = _after(slot.key, values, self.changes)
        elif values in self.known:
            after = self.known[values]
        else:
            after = self.known[values] = _after(slot.key, values, self.changes)
        if after is None:
            return None
        if after == values:
            return slot
        exercise, sets, rir, weaker_first = after
        return replace(slot, exercise=exercise, sets=sets, rir=rir, weaker_first=weaker_first)


def _place(change: Change) -> tuple[int, bool, int]:
    place = ORDER.index(change.kind)
    return STEP_OF[change.kind], change.kind in STEPS[0] and bool(change.slots), place


def _kept(part: T, name: str, children: tuple[object, ...]) -> T:
    """Return the part itself where none of its children changed: most of a long program does not."""
    if all(a is b for a, b in zip(children, getattr(part, name), strict=True)):
        return part
    return replace(part, **{name: children})  # type: ignore[type-var]


def start_loads(document: Document, changes: Iterable[Change]) -> dict[str, float]:
    """Return the starting load in kg by the key of the slot that it is for: the earliest that holds the exercise, in
    the document as adapted."""
    wanted = {one.exercise: one.load_kg for one in changes if one.kind == "start" and one.load_kg is not None}
    found: dict[str, float] = {}
    for slot in slots_in(document):
        if (load := wanted.pop(slot.exercise, None)) is not None:
            found[slot.key] = load
    return found


def slots_in(document: Document) -> list[Slot]:
    """Return every slot, in reading order."""
    return [slot for block in document.blocks for week in block.weeks for day in week.days for slot in day.slots]


def _after(key: str, values: Values, changes: list[Change]) -> Values | None:
    exercise, sets, rir, weaker_first = values
    before, step, out = exercise, 0, False
    for change in changes:
        if (here := STEP_OF[change.kind]) != step:
            if out:
                return None
            before, step = exercise, here
        if not change.meets(key, before):
            continue
        match change.kind:
            case "swap" if change.to is not None:
                exercise, out = change.to, False
            case "one-side":
                exercise, weaker_first = change.to or exercise, True
            case "leave-out":
                out = True
            case "scale":
                sets = _scaled(sets[0], change.factor), _scaled(sets[1], change.factor)
            case "fewer":
                sets = max(1, sets[0] - change.less), max(1, sets[1] - change.less)
            case "rir" | "careful":
                rir = _kept_within((rir[0] + change.rir, rir[1] + change.rir), limits.RIR)
    return None if out else (exercise, sets, rir, weaker_first)


def _scaled(sets: int, factor: float) -> int:
    # Half a set goes down: when in doubt the lighter plan.
    return max(1, int(sets * factor + 0.499))


def _kept_within(ends: Range, bounds: Range) -> Range:
    low, high = (min(max(end, bounds[0]), bounds[1]) for end in ends)
    return low, high


def _paired(slots: list[Slot], pairs: list[tuple[str, ...]]) -> list[Slot]:
    """Give the slots of each pair a letter of their own; a pair of which only one is left here is none."""
    taken = {slot.pair for slot in slots}
    for keys in pairs:
        members = [slot for slot in slots if slot.key in keys]
        if len(members) > 1:
            letter = next((one for one in reversed(LETTERS) if one not in taken), "")
            taken.add(letter)
            slots = [replace(slot, pair=letter) if slot.key in keys else slot for slot in slots]
    return slots
