"""Keys: short random names by which two windows speak of the same part."""

import secrets
from collections.abc import Callable
from dataclasses import replace

from programs.document.find import keys
from programs.document.model import CHILDREN, Document, Node, children

ALPHABET = "abcdefghjkmnpqrstuvwxyz23456789"
MakeKey = Callable[[], str]


def random_key() -> str:
    return "".join(secrets.choice(ALPHABET) for _ in range(8))


def unused(document: Document, make: MakeKey = random_key) -> MakeKey:
    """Return a maker of keys that the document does not hold."""
    taken = keys(document)

    def fresh() -> str:
        while (key := make()) in taken:
            pass
        taken.add(key)
        return key

    return fresh


def with_new_keys(node: Node, fresh: MakeKey) -> Node:
    """Return a copy of a part, and of all it holds, under new keys."""
    field = CHILDREN.get(type(node))
    if field is None:
        return replace(node, key=fresh())
    return replace(node, key=fresh(), **{field: tuple(with_new_keys(child, fresh) for child in children(node))})
