"""What a request for a draft gets back: a week, a clash of demands, or neither in the time given."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from periodization.draft.demands import Demand
from periodization.draft.prescription import Range
from periodization.rules import Reason


@dataclass(frozen=True, slots=True)
class Need:
    """What a slot is there for, and the points that would be lost without it."""

    reason: Reason
    points: float


@dataclass(frozen=True, slots=True)
class NextBest:
    """The best exchange of this slot alone, the rest of the week unchanged: it would cost `points`. A whole new draft
    without the exercise could cost less, never more."""

    exercise: str
    sets: int
    points: float


@dataclass(frozen=True, slots=True)
class DraftSlot:
    """One exercise of a day. `pair` is a letter shared by the slots done in alternation, or empty. `next_best` None: no
    exchange of this slot alone keeps every demand."""

    exercise: str
    sets: int
    reps: Range
    rir: Range
    rest_seconds: int
    pair: str
    needs: tuple[Need, ...]
    next_best: NextBest | None


@dataclass(frozen=True, slots=True)
class DraftDay:
    """`minutes` as the session is counted everywhere (periodization.duration), warm-up included."""

    id: str
    weekday: int
    slots: tuple[DraftSlot, ...]
    minutes: float


@dataclass(frozen=True, slots=True)
class Draft:
    """A week worth `points` (an empty week is worth 0); no week is worth more than `bound`, so this one is at most
    `gap` (share of its points) from the best. `ended` "within_gap": the gap asked for was reached; "clock" or
    "cancelled": the search was stopped before. `terms` are the points by what earns or costs them; `notes` say what
    the bound leaves out."""

    ended: Literal["within_gap", "clock", "cancelled"]
    points: float
    bound: float
    gap: float
    days: tuple[DraftDay, ...]
    terms: Mapping[tuple[str, str], float]
    notes: tuple[Reason, ...]
    seconds: float


@dataclass(frozen=True, slots=True)
class Relaxation:
    """Giving up `demand` alone makes a week possible; with a number, changing it to `enough` is sufficient."""

    demand: Demand
    enough: float | None
    reason: Reason


@dataclass(frozen=True, slots=True)
class Clash:
    """`demands` cannot all be met; without any one of them the others can. `proven` False: the clock left the second
    half of that unproved. `relaxations` are those known to make the whole request possible; there may be none."""

    demands: tuple[Demand, ...]
    proven: bool
    relaxations: tuple[Relaxation, ...]


@dataclass(frozen=True, slots=True)
class NoAnswer:
    """Neither a week nor a proof that there is none was found before the clock or a cancel."""

    ended: Literal["clock", "cancelled"]
    seconds: float


DraftResult = Draft | Clash | NoAnswer
