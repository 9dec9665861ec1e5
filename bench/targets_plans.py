"""Two plans for bench/targets.py: the gym of demo/cohort, and a living room with few loads and large steps."""

from collections.abc import Iterator
from datetime import date, timedelta

from demo.cohort import CohortSlot, standard_plan
from demo.cohort.plan import CohortSession
from periodization.loads import BodyWeightPlus, FixedSteps, NoLoad

DUMBBELLS = FixedSteps(2.0, 24.0, 2.0)
BELT = BodyWeightPlus(FixedSteps(2.5, 20.0, 2.5))
BODY_KG = 75.0
# (name, groups, repetitions, loads, what a person of average strength moves once, share of the body that moves)
DAYS = (
    (
        0,
        (("push-up", ("chest",), 8, 15, NoLoad(), 72, 0.65), ("split-squat", ("quadriceps",), 8, 12, DUMBBELLS, 34, 0)),
    ),
    (2, (("pull-up", ("back",), 5, 10, BELT, 96, 1.0), ("lateral-raise", ("shoulders",), 10, 15, DUMBBELLS, 14, 0))),
    (4, (("push-up", ("chest",), 8, 15, NoLoad(), 72, 0.65), ("curl", ("biceps",), 8, 12, DUMBBELLS, 20, 0))),
)


def home_plan(start: date, weeks: int) -> list[CohortSession]:
    """Return `weeks` weeks of three days from `start` (a Monday), every sixth a deload."""
    return list(_home(start, weeks))


def _home(start: date, weeks: int) -> Iterator[CohortSession]:
    for week in range(weeks):
        deload = week % 6 == 5
        for weekday, lifts in DAYS:
            slots = tuple(
                CohortSlot(
                    name, groups, 2 if deload else 3, low, high, 3.0 if deload else 1.0, 4.0 if deload else 2.0,
                    ladder, one_rm, BODY_KG * share if share else None,
                )
                for name, groups, low, high, ladder, one_rm, share in lifts
            )  # fmt: skip
            day = start + timedelta(7 * week + weekday)
            yield CohortSession(f"{day}", day, slots, deload)


PLANS = {"gym": standard_plan, "home": home_plan}
