"""Repetitions and reserve that a draft prescribes, by training status. CHOSEN; the coach edits them."""

from collections.abc import Mapping
from dataclasses import dataclass

from periodization.targets import Status

Range = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Prescription:
    """Both ends of the repetitions and of the repetitions in reserve."""

    reps: Range
    rir: Range


@dataclass(frozen=True, slots=True)
class Prescriptions:
    """One for exercises over several joints, one for those over a single joint, and one for those of either kind whose
    load cannot be raised (None: as the others)."""

    compound: Prescription
    single: Prescription
    light: Prescription | None = None


# The less experience, the more in reserve: reports of reserve err more far from failure and in beginners.
DEFAULT_PRESCRIPTIONS: Mapping[Status, Prescriptions] = {
    "novice": Prescriptions(
        Prescription((8, 12), (2, 3)), Prescription((10, 15), (2, 3)), Prescription((10, 20), (2, 3))
    ),
    "intermediate": Prescriptions(
        Prescription((6, 10), (1, 3)), Prescription((10, 15), (1, 2)), Prescription((12, 25), (1, 2))
    ),
    "advanced": Prescriptions(
        Prescription((6, 10), (1, 2)), Prescription((10, 15), (0, 2)), Prescription((15, 30), (0, 2))
    ),
}
# An exercise graded so for loadability: effort can only come from more repetitions.
LIGHT_GRADE = 1
# An exercise graded this or less for ending near failure gets one repetition more in reserve.
CAREFUL_GRADE = 2


def prescribe(
    prescriptions: Prescriptions, compound: bool, loadability: int, near_failure: int, reps: Range | None
) -> Prescription:
    """Return the prescription of one exercise; `reps` is its own range (held seconds, steps), or None."""
    base = prescriptions.compound if compound else prescriptions.single
    if prescriptions.light is not None and loadability <= LIGHT_GRADE:
        base = prescriptions.light
    more = 1 if near_failure <= CAREFUL_GRADE else 0
    return Prescription(reps or base.reps, (base.rir[0] + more, base.rir[1] + more))
