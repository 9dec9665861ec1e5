"""Find a part of a document by its key, and put something else in its place."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from django.utils.translation import gettext as _

from programs.document.errors import EditError
from programs.document.model import CHILDREN, Block, Day, Document, Node, Slot, Week, children

N = TypeVar("N", Block, Week, Day, Slot)


@dataclass(frozen=True, slots=True)
class Place:
    """Where a part stands: itself, and what holds it, from the block down (None below the part). A ramp's base week
    and all in it has the week number 0."""

    node: Node
    number: int  # among its siblings, from 1
    block: Block
    block_number: int
    week: Week | None = None
    week_number: int = 0
    day: Day | None = None


def places(document: Document) -> Iterator[Place]:
    """Yield every part of the document in reading order."""
    return (Place(*one) for one in _walk(document))


def _walk(document: Document) -> Iterator[tuple[Any, ...]]:
    """Yield the values of each `Place`: to make one of every part that is only passed by costs more than the search."""
    for b, block in enumerate(document.blocks, 1):
        yield block, b, block, b
        for w, week in _weeks(block):
            yield week, w, block, b, week, w
            for d, day in enumerate(week.days, 1):
                yield day, d, block, b, week, w, day
                for s, slot in enumerate(day.slots, 1):
                    yield slot, s, block, b, week, w, day


def _weeks(block: Block) -> Iterator[tuple[int, Week]]:
    if block.ramp:
        yield 0, block.ramp.base
    yield from enumerate(block.weeks, 1)


def week_places(document: Document) -> Iterator[Place]:
    """Yield the weeks alone, in reading order."""
    for b, block in enumerate(document.blocks, 1):
        for w, week in _weeks(block):
            yield Place(week, w, block, b, week, w)


def slots_of(document: Document) -> Iterator[Slot]:
    """Yield every slot, in reading order."""
    return (slot for block in document.blocks for _w, week in _weeks(block) for day in week.days for slot in day.slots)


def find(document: Document, key: str, *kinds: type) -> Place:
    """Return the place of `key`; EditError when it is gone or is none of `kinds`."""
    for one in _walk(document):
        if one[0].key == key and (not kinds or isinstance(one[0], kinds)):
            return Place(*one)
    raise EditError(_("That part of the program is not there (any more)."))


def keys(document: Document) -> set[str]:
    return {one[0].key for one in _walk(document)}


def put(document: Document, key: str, change: Callable[[N], Iterable[Node]]) -> Document:
    """Return the document with the part `key` replaced by what `change` makes of it (nothing, one or several parts).
    What does not hold it stays the very same object."""
    return _put(document, key, change)


def _put(node, key, change):
    before = children(node)
    after: list[Node] = []
    for child in before:
        if child.key == key:
            after.extend(change(child))
        else:
            after.append(child if type(child) is Slot else _put(child, key, change))
    if isinstance(node, Block) and node.ramp:
        # A base week is one, always: what is put in its place is one week.
        old = node.ramp.base
        (base,) = change(old) if old.key == key else (_put(old, key, change),)
        if base is not old:
            node = replace(node, ramp=replace(node.ramp, base=base))
    if len(after) == len(before) and all(one is two for one, two in zip(after, before, strict=True)):
        return node
    return replace(node, **{CHILDREN[type(node)]: tuple(after)})
