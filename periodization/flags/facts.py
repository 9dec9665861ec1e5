"""What the rules are told: plain values, all kilograms and days of the client's own calendar."""

from dataclasses import dataclass, replace
from datetime import date


@dataclass(frozen=True, slots=True)
class SetFact:
    """One working set as logged. `load_kg` is the setting (help, on an assisted machine).

    `e1rm_kg` and `sd` (of its logarithm, see trend.observation_sd) are None when nothing can be estimated.
    """

    set_id: str
    load_kg: float
    reps: int
    rir: float | None = None
    e1rm_kg: float | None = None
    sd: float | None = None


@dataclass(frozen=True, slots=True)
class Exposure:
    """One exercise in one performed session, warm-ups left out. Prescription is None where nothing was prescribed.

    `sets` are in the order done. `sets_prescribed`: how many were asked for. `deload`: the session belonged to a week
    of reduced training, so less was asked and less shows.
    """

    day: date
    session_id: str
    exercise_id: str
    groups: tuple[str, ...] = ()
    reps_min: int | None = None
    reps_max: int | None = None
    rir_min: float | None = None
    rir_max: float | None = None
    sets: tuple[SetFact, ...] = ()
    sets_prescribed: int | None = None
    deload: bool = False


@dataclass(frozen=True, slots=True)
class CheckInFact:
    """Five items, 1 (worst) to 5 (best), and the muscle groups named as still sore."""

    day: date
    id: str
    fatigue: float
    sleep: float
    soreness: float
    stress: float
    mood: float
    sore_groups: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PainFact:
    """One report, 0 none to 10 worst. `exercise_id` is None when no exercise was named."""

    id: str
    day: date
    score: float
    site: str
    exercise_id: str | None = None


@dataclass(frozen=True, slots=True)
class PlannedFact:
    """One planned session that was not cancelled, and whether it was done."""

    session_id: str
    day: date
    done: bool


@dataclass(frozen=True, slots=True)
class WeekVolume:
    """Fractional hard sets of one group in the week that starts on the Monday `week`, and its target range."""

    week: date
    group: str
    done: float
    floor: float
    ceiling: float


@dataclass(frozen=True, slots=True)
class ClientHistory:
    """Everything the rules may look at. Order does not matter: each rule sorts what it reads."""

    exposures: tuple[Exposure, ...] = ()
    check_ins: tuple[CheckInFact, ...] = ()
    pains: tuple[PainFact, ...] = ()
    planned: tuple[PlannedFact, ...] = ()
    volume: tuple[WeekVolume, ...] = ()

    def between(self, first: date, last: date) -> "ClientHistory":
        """Return what lies from `first` to `last`, both included; a week lies where its Monday does."""
        return replace(
            self,
            exposures=tuple(x for x in self.exposures if first <= x.day <= last),
            check_ins=tuple(x for x in self.check_ins if first <= x.day <= last),
            pains=tuple(x for x in self.pains if first <= x.day <= last),
            planned=tuple(x for x in self.planned if first <= x.day <= last),
            volume=tuple(x for x in self.volume if first <= x.week <= last),
        )
