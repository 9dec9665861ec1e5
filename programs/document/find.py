"""Find a part of a document by its key, and put something else in its place."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from typing import TypeVar

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
    for b, block in enumerate(document.blocks, 1):
        yield Place(block, b, block, b)
        base = ((0, block.ramp.base),) if block.ramp else ()
        for w, week in (*base, *enumerate(block.weeks, 1)):
            yield Place(week, w, block, b, week, w)
            for d, day in enumerate(week.days, 1):
                yield Place(day, d, block, b, week, w, day)
                for s, slot in enumerate(day.slots, 1):
                    yield Place(slot, s, block, b, week, w, day)


def find(document: Document, key: str, *kinds: type) -> Place:
    """Return the place of `key`; EditError when it is gone or is none of `kinds`."""
    for place in places(document):
        if place.node.key == key and (not kinds or isinstance(place.node, kinds)):
            return place
    raise EditError(_("That part of the program is not there (any more)."))


def keys(document: Document) -> set[str]:
    return {place.node.key for place in places(document)}


def put(document: Document, key: str, change: Callable[[N], Iterable[Node]]) -> Document:
    """Return the document with the part `key` replaced by what `change` makes of it (nothing, one or several parts)."""
    return _put(document, key, change)


def _put(node, key, change):
    field = CHILDREN.get(type(node))
    if field is None:
        return node
    after: list[Node] = []
    for child in children(node):
        after.extend(change(child) if child.key == key else (_put(child, key, change),))
    if isinstance(node, Block) and node.ramp:
        # A base week is one, always: what is put in its place is one week.
        (base,) = change(node.ramp.base) if node.ramp.base.key == key else (_put(node.ramp.base, key, change),)
        node = replace(node, ramp=replace(node.ramp, base=base))
    return replace(node, **{field: tuple(after)})
