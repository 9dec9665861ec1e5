"""What comes out: the client's log, and the truth behind it that no client's log holds."""

from dataclasses import dataclass
from datetime import date

from demo.cohort.plan import CohortSession
from periodization.flags import CheckInFact, PainFact
from periodization.progression import Target
from periodization.units import Unit


@dataclass(frozen=True, slots=True)
class LoggedSet:
    """One working set. `load` as typed in `unit`, `load_kg` beside it; `true_rir` is what was really left."""

    set_id: str
    number: int
    load: float
    unit: Unit
    load_kg: float
    reps: int
    rir: float | None
    true_rir: float


@dataclass(frozen=True, slots=True)
class LoggedSlot:
    """The sets of one exercise, and the target they were done to. `slot` is its place in the planned session.

    `true_rir_at_target`: what the day's true strength would have left after the target's repetitions in the first set;
    negative when they could not be done.
    """

    slot: int
    exercise: str
    target: Target
    sets: tuple[LoggedSet, ...]
    true_one_rm_kg: float
    true_rir_at_target: float


@dataclass(frozen=True, slots=True)
class LoggedSession:
    """One performed session. `rpe` is the CR-10 effort of the whole."""

    planned: CohortSession
    slots: tuple[LoggedSlot, ...]
    rpe: float
    minutes: int


@dataclass(frozen=True, slots=True)
class DayTruth:
    """The truth of one day. `excess`: strength taken by fatigue beyond the usual week's, as a part (0.05 is 5 %)."""

    day: date
    fitness: float
    fatigue: float
    excess: float
    ill: bool
    deload: bool


@dataclass(frozen=True, slots=True)
class Episode:
    """An overreaching episode: `onset` and `end` (both included); `peak` is the largest excess."""

    onset: date
    end: date
    peak: float


@dataclass(frozen=True, slots=True)
class SimulatedHistory:
    """Log and truth of one client, oldest first. `missed` are planned sessions that were not done."""

    days: tuple[DayTruth, ...]
    sessions: tuple[LoggedSession, ...]
    missed: tuple[CohortSession, ...]
    check_ins: tuple[CheckInFact, ...]
    pains: tuple[PainFact, ...]
