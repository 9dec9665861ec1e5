"""The bench's plan: four days a week, blocks of five rising weeks and a deload, from `periodization.ramp`."""

from dataclasses import dataclass
from datetime import date, timedelta

from demo.cohort.plan import CohortSession, CohortSlot
from periodization.loads import FixedSteps, LoadLadder, PlatePairs, Stack
from periodization.ramp import RampSpec, plan_ramp

BAR: LoadLadder = PlatePairs(20.0, ((25.0, 3), (20.0, 2), (15.0, 1), (10.0, 1), (5.0, 1), (2.5, 1), (1.25, 1)))
DUMBBELLS: LoadLadder = FixedSteps(2.0, 50.0, 2.0)
STACK: LoadLadder = Stack(tuple(float(kg) for kg in range(5, 155, 5)), (2.5,))


@dataclass(frozen=True, slots=True)
class Lift:
    """An exercise of the standard plan."""

    name: str
    groups: tuple[str, ...]
    reps: tuple[int, int]
    ladder: LoadLadder
    one_rm_kg: float


UPPER_A = (
    Lift("bench-press", ("chest", "triceps"), (6, 10), BAR, 90),
    Lift("row", ("back", "biceps"), (8, 12), BAR, 85),
    Lift("overhead-press", ("shoulders", "triceps"), (8, 12), DUMBBELLS, 30),
    Lift("curl", ("biceps",), (8, 12), DUMBBELLS, 20),
    Lift("triceps-extension", ("triceps",), (10, 15), STACK, 50),
)
LOWER_A = (
    Lift("squat", ("quadriceps", "glutes"), (6, 10), BAR, 120),
    Lift("romanian-deadlift", ("hamstrings", "glutes"), (8, 12), BAR, 125),
    Lift("leg-extension", ("quadriceps",), (10, 15), STACK, 90),
    Lift("calf-raise", ("calves",), (10, 15), STACK, 130),
)
UPPER_B = (
    Lift("incline-press", ("chest", "shoulders"), (8, 12), DUMBBELLS, 36),
    Lift("pulldown", ("back", "biceps"), (8, 12), STACK, 85),
    Lift("lateral-raise", ("shoulders",), (10, 15), DUMBBELLS, 14),
    Lift("curl", ("biceps",), (8, 12), DUMBBELLS, 20),
    Lift("triceps-extension", ("triceps",), (10, 15), STACK, 50),
)
LOWER_B = (
    Lift("squat", ("quadriceps", "glutes"), (6, 10), BAR, 120),
    Lift("leg-curl", ("hamstrings",), (8, 12), STACK, 70),
    Lift("leg-extension", ("quadriceps",), (10, 15), STACK, 90),
    Lift("calf-raise", ("calves",), (10, 15), STACK, 130),
)
DAYS: tuple[tuple[int, tuple[Lift, ...]], ...] = ((0, UPPER_A), (1, LOWER_A), (3, UPPER_B), (4, LOWER_B))
BLOCK_WEEKS = 6
SETS = RampSpec(start_sets=3, peak_sets=4, rir_from=3, rir_to=1)
# A planned overreach: the last two weeks before the deload ask for half as much again, close to failure.
OVERREACH_WEEKS, OVERREACH_SHARE = (4, 5), 1.6


def standard_plan(
    start: date, weeks: int, overreach: bool = False, block_weeks: int = BLOCK_WEEKS
) -> list[CohortSession]:
    """Return `weeks` weeks from `start` (a Monday)."""
    ramp = plan_ramp(block_weeks, SETS)
    plan = []
    for week in range(weeks):
        step = ramp[week % block_weeks]
        sets, rir = step.sets, step.rir
        if overreach and step.number in OVERREACH_WEEKS and not step.deload:
            sets, rir = round(sets * OVERREACH_SHARE), 0
        for weekday, lifts in DAYS:
            slots = tuple(
                CohortSlot(x.name, x.groups, sets, *x.reps, max(0, rir - 1), rir + 1, x.ladder, x.one_rm_kg)
                for x in lifts
            )
            day = start + timedelta(7 * week + weekday)
            plan.append(CohortSession(f"{day}", day, slots, step.deload))
    return plan
