"""The plan's levels."""

from dataclasses import dataclass

Range = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Slot:
    """One exercise of a training day. Ranges hold both ends; a single number is a range of one. `pair` is a letter
    that the slots done in alternation share, or empty. `rest_s`: seconds between two sets of this exercise."""

    key: str
    exercise: int
    pair: str = ""
    sets: Range = (3, 3)
    reps: Range = (8, 12)
    rir: Range = (1, 2)
    rest_s: int = 120
    tempo: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Day:
    key: str
    name: str
    slots: tuple[Slot, ...] = ()


@dataclass(frozen=True, slots=True)
class Week:
    key: str
    deload: bool = False
    note: str = ""
    days: tuple[Day, ...] = ()


@dataclass(frozen=True, slots=True)
class Block:
    key: str
    name: str
    weeks: tuple[Week, ...] = ()


@dataclass(frozen=True, slots=True)
class Document:
    blocks: tuple[Block, ...] = ()


Node = Block | Week | Day | Slot
# The field that holds what is one level lower.
CHILDREN: dict[type, str] = {Document: "blocks", Block: "weeks", Week: "days", Day: "slots"}


def children(node: Document | Node) -> tuple[Node, ...]:
    field = CHILDREN.get(type(node))
    return getattr(node, field) if field else ()
