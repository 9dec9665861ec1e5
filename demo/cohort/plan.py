"""What the simulated client is asked to do. The demo passes its own plan; the bench uses `standard_plan`."""

from dataclasses import dataclass
from datetime import date

from periodization.loads import LoadLadder


@dataclass(frozen=True, slots=True)
class CohortSlot:
    """One exercise of a session. `one_rm_kg`: what a person of average strength moves once (body included)."""

    exercise: str
    groups: tuple[str, ...]
    sets: int
    reps_min: int
    reps_max: int
    rir_min: float
    rir_max: float
    ladder: LoadLadder
    one_rm_kg: float
    body_kg: float | None = None


@dataclass(frozen=True, slots=True)
class CohortSession:
    """One planned session."""

    session_id: str
    day: date
    slots: tuple[CohortSlot, ...]
    deload: bool = False

    @property
    def sets(self) -> int:
        """All working sets asked for."""
        return sum(slot.sets for slot in self.slots)
