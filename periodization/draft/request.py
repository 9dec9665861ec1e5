"""What a draft is asked for."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from periodization.draft.prescription import Prescriptions, Range
from periodization.draft.weights import Weights
from periodization.duration import WARM_UP_MINUTES
from periodization.targets import Priority, Status


@dataclass(frozen=True, slots=True)
class Head:
    """A muscle head, the group its sets are rolled up to (None: tracked, no target), and what it does."""

    id: str
    group: str | None
    actions: frozenset[str]


@dataclass(frozen=True, slots=True)
class Grades:
    """The library's four grades, 1 to 5."""

    activation: int
    long_length: int
    loadability: int
    near_failure: int


@dataclass(frozen=True, slots=True)
class Candidate:
    """An exercise that may be drafted. `credits` by head; `tags` are stresses that a limit can exclude; `reps` is its
    own range where something else than repetitions is counted (then `rep_seconds` is for one of those)."""

    id: str
    credits: Mapping[str, float]
    grades: Grades
    actions: frozenset[str]
    equipment: str
    compound: bool
    one_sided: bool = False
    long_heads: frozenset[str] = frozenset()
    setup_seconds: float = 60.0
    rest_seconds: int = 120
    rep_seconds: float = 4.0
    tags: frozenset[str] = frozenset()
    reps: Range | None = None


@dataclass(frozen=True, slots=True)
class TrainingDay:
    """`weekday` 0 (Monday) to 6; `minutes` from the warm-up to the last repetition."""

    id: str
    weekday: int
    minutes: float


@dataclass(frozen=True, slots=True)
class Target:
    """Weekly fractional hard sets of a group. `aim` (None: the middle) lies where more sets stop earning points.

    What is a must has to be met, or there is no draft; what is not is a wish and weighed.
    """

    group: str
    floor: float
    ceiling: float
    priority: Priority = "normal"
    aim: float | None = None
    floor_must: bool = True
    ceiling_must: bool = True
    heads_must: bool = False
    long_must: bool = False


@dataclass(frozen=True, slots=True)
class ExerciseCount:
    """How many exercises that train `group` directly `day` has."""

    group: str
    day: str
    low: int
    high: int


@dataclass(frozen=True, slots=True)
class Limit:
    """No exercise with this joint action, or with this stress tag."""

    kind: Literal["action", "tag"]
    name: str


@dataclass(frozen=True, slots=True)
class Stop:
    """When the solver may stop: within `gap` of the best (0.005 is 0.5 %) or after `seconds`. Equal seeds, equal
    drafts, as long as the clock did not stop them."""

    gap: float = 0.005
    seconds: float = 20.0
    seed: int = 0


@dataclass(frozen=True, slots=True)
class Request:
    """A week to draft. `equipment` None: all there is. `sets` bounds the sets of one exercise on one day; `session_cap`
    the fractional sets a group gets on one day. Groups without a target are not planned for and not bounded."""

    heads: tuple[Head, ...]
    candidates: tuple[Candidate, ...]
    days: tuple[TrainingDay, ...]
    targets: tuple[Target, ...]
    status: Status = "intermediate"
    prescriptions: Prescriptions | None = None
    equipment: frozenset[str] | None = None
    include: frozenset[str] = frozenset()
    avoid: frozenset[str] = frozenset()
    limits: tuple[Limit, ...] = ()
    counts: tuple[ExerciseCount, ...] = ()
    pairs: bool = False
    sets: Range = (2, 4)
    session_cap: float = 10.0
    slots_per_day: int = 10
    spacing_hours: float = 48.0
    spacing_must: bool = False
    warm_up_minutes: float = WARM_UP_MINUTES
    weights: Weights = field(default_factory=Weights)
    stop: Stop = field(default_factory=Stop)
