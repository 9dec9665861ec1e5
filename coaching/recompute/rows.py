"""What a recompute reads from the database, as plain values: nothing here can run a query later by accident."""

import datetime as dt
from dataclasses import dataclass, field
from typing import Any, NamedTuple
from uuid import UUID

from periodization.loads import LoadLadder
from periodization.progression import NO_VARIANTS, Counted, Variants


class SessionRow(NamedTuple):
    id: UUID
    date: dt.date
    planned_id: int | None
    session_rpe: float | None
    minutes: int | None


class SetRow(NamedTuple):
    id: UUID
    session_id: UUID
    date: dt.date
    slot_id: int | None
    exercise_id: int
    number: int
    side: str
    warm_up: bool
    load_kg: float
    reps: int
    rir: float | None
    performed_at: dt.datetime


class SlotRow(NamedTuple):
    """A planned slot with what its session says. `performed_on` is None until something was logged for it."""

    id: int
    session_id: int
    date: dt.date
    is_deload: bool
    performed_on: dt.date | None
    exercise_id: int
    sets: int
    reps_min: int
    reps_max: int
    rir_min: int
    rir_max: int
    target_load_kg: float | None
    target_reps: int | None
    target_reason: Any
    block_number: int
    week_number: int
    start_load_kg: float | None = None


class CheckInRow(NamedTuple):
    id: UUID
    date: dt.date
    fatigue: int
    sleep: int
    soreness: int
    stress: int
    mood: int
    sore_groups: list[str]


class PainRow(NamedTuple):
    id: UUID
    reported_at: dt.datetime
    session_date: dt.date | None
    exercise_id: int | None
    site: str
    score: int
    side: str


class MassRow(NamedTuple):
    id: UUID
    date: dt.date
    mass_kg: float


class DecisionRow(NamedTuple):
    """A decision that stands: it binds what a rebuild proposes and what the targets of a reduced week are."""

    id: int
    prompt_id: UUID
    kind: str
    week: dt.date
    answer: str
    proposal: Any


@dataclass(frozen=True)
class ExerciseRow:
    """An exercise with its real loads. Only one that is counted in repetitions (`in_reps`) has an e1RM.

    `variants`: the names of an easier and a harder exercise that the client's limits leave open.
    `body_share` is the part of the body that it moves, 0 to 1, where the body is part of the load.
    """

    id: int
    name: str
    counted: Counted
    ladder: LoadLadder
    body_share: float = 1.0
    credits: dict[str, float] = field(default_factory=dict)
    muscle_of_head: dict[str, str] = field(default_factory=dict)
    group_of_head: dict[str, str] = field(default_factory=dict)
    variants: Variants = NO_VARIANTS

    @property
    def in_reps(self) -> bool:
        return self.counted == "reps"


@dataclass(frozen=True)
class Log:
    """Everything of one client that the computed weeks may look at."""

    client_id: int
    today: dt.date
    sessions: tuple[SessionRow, ...]
    sets: tuple[SetRow, ...]
    slots: tuple[SlotRow, ...]
    check_ins: tuple[CheckInRow, ...]
    pains: tuple[PainRow, ...]
    masses: tuple[MassRow, ...]
    decisions: tuple[DecisionRow, ...]
    exercises: dict[int, ExerciseRow]
