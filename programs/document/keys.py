"""Keys: short random names by which two windows speak of the same part."""

import secrets
from collections.abc import Callable
from dataclasses import replace

from programs.document.find import keys
from programs.document.model import CHILDREN, Block, Day, Document, Node, children

ALPHABET = "abcdefghjkmnpqrstuvwxyz23456789"
MakeKey = Callable[[], str]


def random_key() -> str:
    return "".join(secrets.choice(ALPHABET) for _ in range(8))


def unused(document: Document, make: MakeKey = random_key) -> MakeKey:
    """Return a maker of keys that the document does not hold."""
    taken: set[str] = set()

    def fresh() -> str:
        # Most changes need no key at all.
        if not taken:
            taken.update(keys(document))
        while (key := make()) in taken:
            pass
        taken.add(key)
        return key

    return fresh


def with_new_keys(node: Node, fresh: MakeKey) -> Node:
    """Return a copy of a part, and of all it holds, under new keys. In a block with a ramp, what comes from the base
    week comes from the copy's own."""
    field = CHILDREN.get(type(node))
    if field is None:
        return replace(node, key=fresh())
    if isinstance(node, Block) and node.ramp:
        node = _with_new_base(node, fresh)
    return replace(node, key=fresh(), **{field: tuple(with_new_keys(child, fresh) for child in children(node))})


def _with_new_base(block: Block, fresh: MakeKey) -> Block:
    """Give the ramp's base week new keys, and let what names them follow."""
    ramp = block.ramp
    base = with_new_keys(ramp.base, fresh)
    new: dict[str, str] = {}
    for old, day in zip(ramp.base.days, base.days, strict=True):
        new[old.key] = day.key
        new |= {one.key: two.key for one, two in zip(old.slots, day.slots, strict=True)}

    def follow(part):
        moved = replace(part, origin=new.get(part.origin, ""))
        return replace(moved, slots=tuple(follow(slot) for slot in part.slots)) if isinstance(part, Day) else moved

    weeks = tuple(replace(week, days=tuple(follow(day) for day in week.days)) for week in block.weeks)
    slots = tuple(sorted(((new[key], rule) for key, rule in ramp.slots), key=lambda one: one[0]))
    return replace(block, weeks=weeks, ramp=replace(ramp, base=base, slots=slots))
