"""From the client's dated plan to what the simulated client is asked to do."""

import datetime as dt
from dataclasses import dataclass

from demo.cohort.plan import CohortSession, CohortSlot
from demo.practice.strength import ONE_RM_KG
from programs.models import Assignment, Exercise, LoadKind, PlannedSession, PlannedSlot
from programs.services.ladders import exercise_ladder

# A group shares in a slot when a set counts at least half for one of its heads.
SHARE = 0.5


@dataclass(frozen=True)
class AskedPlan:
    """The simulated client's sessions, and the rows behind them by the session's id and the slot's place."""

    sessions: list[CohortSession]
    planned: dict[str, PlannedSession]
    slots: dict[str, list[PlannedSlot]]


def cohort_plan(assignment: Assignment, mass_kg: float, before: dt.date) -> AskedPlan:
    """Return the sessions of the assignment that lie before a day (four queries)."""
    rows = list(
        assignment.sessions.filter(date__lt=before).prefetch_related("slots__exercise__equipment").order_by("date")
    )
    groups = groups_of({slot.exercise_id for row in rows for slot in row.slots.all()})
    slots = {str(row.pk): list(row.slots.all()) for row in rows}
    sessions = [
        CohortSession(
            str(row.pk),
            row.date,
            tuple(
                asked(slot, groups.get(slot.exercise_id, ()), mass_kg, assignment.client.user.load_unit)
                for slot in slots[str(row.pk)]
            ),
            row.is_deload,
        )
        for row in rows
    ]
    return AskedPlan(sessions, {str(row.pk): row for row in rows}, slots)


def asked(slot: PlannedSlot, groups: tuple[str, ...], mass_kg: float, unit: str) -> CohortSlot:
    exercise = slot.exercise
    moved = None if exercise.load_kind == LoadKind.EXTERNAL else mass_kg * exercise.body_share
    return CohortSlot(
        exercise.slug,
        groups,
        slot.sets,
        slot.reps_min,
        slot.reps_max,
        slot.rir_min,
        slot.rir_max,
        exercise_ladder(exercise, unit),
        ONE_RM_KG[exercise.slug],
        moved,
    )


def groups_of(exercises: set[int]) -> dict[int, tuple[str, ...]]:
    """Return the muscle groups that each exercise trains, the one with the largest credit first."""
    rows = (
        Exercise.objects.filter(pk__in=exercises, credits__credit__gte=SHARE, credits__head__group__isnull=False)
        .order_by("pk", "-credits__credit", "credits__head__position")
        .values_list("pk", "credits__head__group__slug")
    )
    found: dict[int, list[str]] = {}
    for pk, group in rows:
        if group not in found.setdefault(pk, []):
            found[pk].append(group)
    return {pk: tuple(names) for pk, names in found.items()}
