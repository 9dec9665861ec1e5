"""Changes that mean the same for blocks, weeks, days and slots."""

from dataclasses import replace
from typing import Any

from django.utils.translation import gettext as _

from programs.document import limits
from programs.document.edits.checks import clean_text
from programs.document.edits.registry import operation
from programs.document.errors import EditError
from programs.document.find import Place, find, put
from programs.document.keys import MakeKey, with_new_keys
from programs.document.model import CHILDREN, Block, Day, Document, Node, Slot, Week, children
from programs.document.pairs import tidy


def parent_of(document: Document, place: Place) -> Document | Node:
    """Return what holds the part."""
    match place.node:
        case Slot():
            return place.day  # type: ignore[return-value]
        case Day():
            return place.week  # type: ignore[return-value]
        case Week():
            return place.block
    return document


def with_children(document: Document, parent: Any, parts: tuple[Node, ...]) -> Document:
    """Return the document in which `parent` holds `parts`; a day's pairs are lettered anew."""
    if isinstance(parent, Document):
        return replace(document, blocks=parts)
    changed = replace(parent, **{CHILDREN[type(parent)]: parts})
    if isinstance(changed, Day):
        changed = tidy(changed)
    return put(document, parent.key, lambda _old: (changed,))


def _no_base_week(place: Place) -> None:
    """EditError when the part is the week from which a ramp makes the others."""
    if isinstance(place.node, Week) and not place.week_number:
        raise EditError(_("The base week stays as long as the block has a ramp. Take the ramp off first."))


@operation("remove")
def remove(document: Document, fresh: MakeKey, *, key: str) -> Document:
    """Take a part away with all it holds. The last block, and a block's last week, stay: there must be somewhere to
    write."""
    place = find(document, key)
    _no_base_week(place)
    parent = parent_of(document, place)
    rest = tuple(part for part in children(parent) if part.key != key)
    if not rest and isinstance(place.node, Block):
        raise EditError(_("A program keeps at least one block."))
    if not rest and isinstance(place.node, Week):
        raise EditError(_("A block keeps at least one week. Remove the block instead."))
    return with_children(document, parent, rest)


@operation("copy")
def copy(document: Document, fresh: MakeKey, *, key: str, into: str = "") -> Document:
    """Put a copy behind the part itself, or (a training day) at the end of the week `into`."""
    place = find(document, key)
    if not into:
        _no_base_week(place)
    twin = with_new_keys(place.node, fresh)
    if into:
        week = find(document, into, Week).node
        if not isinstance(twin, Day):
            raise EditError(_("Only a training day can be copied to another week."))
        return with_children(document, week, (*children(week), twin))
    if isinstance(twin, Slot):
        twin = replace(twin, pair="")
    parent = parent_of(document, place)
    parts: list[Node] = []
    for part in children(parent):
        parts.append(part)
        if part.key == key:
            parts.append(twin)
    return with_children(document, parent, tuple(parts))


@operation("rename")
def rename(document: Document, fresh: MakeKey, *, key: str, name: str) -> Document:
    """Give a block or a training day a name."""
    find(document, key, Block, Day)
    clean = clean_text(name, limits.NAME, "name")
    if not clean:
        raise EditError(_("Give it a name."), "name")
    return put(document, key, lambda part: (replace(part, name=clean),))


@operation("nudge")
def nudge(document: Document, fresh: MakeKey, *, key: str, by: int) -> Document:
    """Move a block, week or training day `by` places among its siblings, as far as there is room."""
    place = find(document, key, Block, Week, Day)
    _no_base_week(place)
    parent = parent_of(document, place)
    parts = [part for part in children(parent) if part.key != key]
    parts.insert(min(max(place.number - 1 + by, 0), len(parts)), place.node)
    return with_children(document, parent, tuple(parts))
