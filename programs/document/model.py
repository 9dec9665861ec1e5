"""The plan's levels, and the ramp by which a block's weeks come from one base week."""

from dataclasses import dataclass

Range = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Slot:
    """One exercise of a training day. Ranges hold both ends; a single number is a range of one. `pair` is a letter
    that the slots done in alternation share, or empty. `rest_s`: seconds between two sets of this exercise.
    `weaker_first`: of an exercise done one side at a time, the side that was weaker last time comes first.

    In a block with a ramp `origin` is the key of the base week's slot it comes from, and `by_hand` says that its
    prescription was changed and stays. `load_pct` is the load in per cent of the block's first week, 0 when nothing is
    said of it. `group`, on slots of a base week, is the slug of the muscle group that its sets are counted to.
    """

    key: str
    exercise: int
    pair: str = ""
    sets: Range = (3, 3)
    reps: Range = (8, 12)
    rir: Range = (1, 2)
    rest_s: int = 120
    tempo: str = ""
    note: str = ""
    weaker_first: bool = False
    origin: str = ""
    by_hand: bool = False
    load_pct: float = 0
    group: str = ""


@dataclass(frozen=True, slots=True)
class Day:
    key: str
    name: str
    slots: tuple[Slot, ...] = ()
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Week:
    """`by_hand`: its shape was changed, so a ramp leaves all of it alone."""

    key: str
    deload: bool = False
    note: str = ""
    days: tuple[Day, ...] = ()
    by_hand: bool = False


@dataclass(frozen=True, slots=True)
class RampRule:
    """How something goes through the weeks. None: as written in the base week.

    `start` and `peak` are sets a week (of a muscle group's own slots) or of one slot; `rir` is the lower end of the RIR
    in the first and the last week before a deload; `load_pct` is per cent a week added to the load, advisory.
    """

    start: int | None = None
    peak: int | None = None
    rir: Range | None = None
    load_pct: float = 0


@dataclass(frozen=True, slots=True)
class Ramp:
    """The block's weeks come from `base`; of a slot's own rule, its group's and `every`, the nearest that speaks of a
    value decides it. `groups` are by slug, `slots` by the key of the base week's slot, both in order of their name."""

    base: Week
    deload: bool = True
    every: RampRule = RampRule()
    groups: tuple[tuple[str, RampRule], ...] = ()
    slots: tuple[tuple[str, RampRule], ...] = ()


@dataclass(frozen=True, slots=True)
class Block:
    key: str
    name: str
    weeks: tuple[Week, ...] = ()
    ramp: Ramp | None = None


@dataclass(frozen=True, slots=True)
class Document:
    blocks: tuple[Block, ...] = ()


Node = Block | Week | Day | Slot
# The field that holds what is one level lower.
CHILDREN: dict[type, str] = {Document: "blocks", Block: "weeks", Week: "days", Day: "slots"}


def children(node: Document | Node) -> tuple[Node, ...]:
    field = CHILDREN.get(type(node))
    return getattr(node, field) if field else ()
