"""Who is simulated. Every figure is either sourced in docs/methods/cohort.md or marked there as chosen."""

from dataclasses import dataclass, field
from typing import Literal

from periodization.units import Unit

Kind = Literal[
    "steady", "overreacher", "planned_overreach", "novice", "sore_elbow", "stops_coming", "pounds", "sparse_log"
]


@dataclass(frozen=True, slots=True)
class Strain:
    """Days of failing recovery (short sleep, stress, extra work): fatigue is gained `gain` times, kept `keep` times."""

    start: int
    days: int
    gain: float
    keep: float


@dataclass(frozen=True, slots=True)
class Ache:
    """A joint that hurts with some exercises, from day `start` on for `days`, at worst `peak` of 10."""

    site: str
    groups: tuple[str, ...]
    start: int
    days: int
    peak: float


@dataclass(frozen=True, slots=True)
class Stall:
    """One exercise that falls back by itself: from day `start` on, `drop` of its strength goes over `days` for good."""

    exercise: str
    start: int
    days: int
    drop: float

    def lost(self, exercise: str, day: int) -> float:
        """Return the part of strength that this exercise has lost by this day."""
        if exercise != self.exercise or day < self.start:
            return 0.0
        return self.drop * min(1.0, (day - self.start + 1) / self.days)


@dataclass(frozen=True, slots=True)
class Profile:
    """One invented client. Shares are 0..1; strength and fatigue figures are parts of strength (0.05 is 5 %).

    `k_fitness` and `k_fatigue`: what the usual week's fitness adds and its fatigue takes, in the steady state.
    `start_fitness`: the part of that fitness there on the first day.
    `responsiveness`: how strongly fatigue shows in the check-ins; `restlessness`: how much they vary
    without any.
    """

    kind: Kind
    strength: float = 1.0
    start_fitness: float = 0.85
    k_fitness: float = 0.20
    k_fatigue: float = 0.06
    tau_fitness: float = 38.0
    tau_fatigue: float = 14.0
    day_sd: float = 0.025
    exercise_day_sd: float = 0.034
    set_drop: float = 0.02
    rir_bias: float = 0.95
    responsiveness: float = 1.0
    restlessness: float = 1.0
    attendance: float = 0.95
    check_in_share: float = 0.8
    rir_share: float = 0.95
    names_sore_muscles: float = 0.8
    slips: float = 0.001
    illness_per_year: float = 2.0
    strains: tuple[Strain, ...] = ()
    aches: tuple[Ache, ...] = ()
    stalls: tuple[Stall, ...] = ()
    away: tuple[tuple[int, int], ...] = ()
    stops_on: int | None = None
    unit: Unit = "kg"
    items: dict[str, float] = field(default_factory=dict)
