"""Which part of one document is which part of another: by key, and for copies under new keys by what they say."""

from collections.abc import Mapping
from dataclasses import fields

from programs.document.model import Block, Day, Document, Node, Slot, Week, children

# How much of two weeks at the same place must be the same exercises for one to be the other. Chosen: half.
ALIKE = 0.5


def matches(before: Document, after: Document) -> dict[str, str]:
    """Map keys of `before` to keys of `after`. A key that both hold is the same part, wherever it stands now; what is
    left is matched inside parts that match: slots by exercise, days and blocks by name, weeks by what they hold."""
    mapped: dict[str, str] = {}
    index = {part.key: part for part in walk(after)}
    for part in walk(before):
        if type(index.get(part.key)) is type(part):
            mapped[part.key] = part.key
    _inside(before, after, mapped, index)
    return mapped


def content(part: Node) -> tuple[object, ...]:
    """Return everything a part says, without its keys."""
    own = tuple(getattr(part, one.name) for one in fields(part) if one.name not in SKIPPED)
    return (*own, *(content(child) for child in children(part)))


# Keys, what is said by the parts below, and how a ramp keeps its books.
SKIPPED = {"key", "weeks", "days", "slots", "origin", "by_hand", "group", "ramp"}


def walk(part: Document | Node) -> list[Node]:
    """Return everything that a part holds, in reading order."""
    found: list[Node] = []
    for child in children(part):
        found.append(child)
        found.extend(walk(child))
    return found


def _inside(before: Document | Node, after: Document | Node, mapped: dict[str, str], index: Mapping[str, Node]) -> None:
    taken = set(mapped.values())
    old = [part for part in children(before) if part.key not in mapped]
    new = [part for part in children(after) if part.key not in taken]
    for same in (_equal_here, _alike, _equal):
        for part in list(old):
            at = _number(before, part)
            twin = next((one for one in new if same(part, one, at == _number(after, one))), None)
            if twin is not None:
                mapped[part.key] = twin.key
                old.remove(part)
                new.remove(twin)
    for part in children(before):
        # By key also where the part has gone elsewhere.
        twin = index.get(mapped.get(part.key, ""))
        if twin is not None:
            _inside(part, twin, mapped, index)


def _number(parent: Document | Node, part: Node) -> int:
    return next(number for number, one in enumerate(children(parent)) if one.key == part.key)


def _equal_here(old: Node, new: Node, same_place: bool) -> bool:
    return same_place and content(old) == content(new)


def _equal(old: Node, new: Node, same_place: bool) -> bool:
    return content(old) == content(new)


def _alike(old: Node, new: Node, same_place: bool) -> bool:
    if isinstance(old, Slot) and isinstance(new, Slot):
        return old.exercise == new.exercise
    if isinstance(old, Week) and isinstance(new, Week):
        return same_place and _shared(old, new) >= ALIKE
    if isinstance(old, Day | Block) and isinstance(new, Day | Block):
        return old.name == new.name
    return False


def _shared(old: Week, new: Week) -> float:
    first = [(place, slot.exercise) for place, day in enumerate(old.days) for slot in day.slots]
    second = [(place, slot.exercise) for place, day in enumerate(new.days) for slot in day.slots]
    if not first and not second:
        return 1.0
    return len(set(first) & set(second)) / max(len(set(first) | set(second)), 1)
