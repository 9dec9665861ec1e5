"""What a change of a copy must not bring: exercises that a client's limits close on the day for which they come."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from programs.models import Assignment, Exercise
from programs.services.client_limits import DatedLimits, dated_limits_by_client, judged
from programs.services.limits import violations
from programs.services.revision_plan import RevisionPlan
from programs.services.revision_slots import SlotStep

# Day and exercise.
Brought = set[tuple[date, int]]


def closed_by(plans: Iterable[RevisionPlan]) -> dict[int, list[str]]:
    """Return, by assignment, the names of exercises that the plan would bring though they are closed to the client.

    Three queries at most.
    """
    many = list(plans)
    if not many:
        return {}
    clients = [plan.assignment.client for plan in many]
    limits = dated_limits_by_client(clients, min(plan.following.since for plan in many))
    theirs = {
        plan.assignment: brought((step.date, step.slots) for step in plan.steps)
        for plan in many
        if plan.assignment.client_id in limits
    }
    known = judged(exercise for some in theirs.values() for _day, exercise in some) if any(theirs.values()) else {}
    closed = {one: closed_names(one, some, limits[one.client_id], known) for one, some in theirs.items()}
    return {one.pk: names for one, names in closed.items() if names}


def brought(steps: Iterable[tuple[date, Sequence[SlotStep]]]) -> Brought:
    """Return what comes to the rows of these days. What a row names already is not brought."""
    return {
        (day, slot.after["exercise_id"])
        for day, slots in steps
        for slot in slots
        if slot.after and (slot.before is None or slot.before["exercise_id"] != slot.after["exercise_id"])
    }


def closed_names(
    assignment: Assignment, some: Brought, limits: DatedLimits, known: Mapping[int, Exercise]
) -> list[str]:
    """Return the names of what is closed on its day, or, where a pause holds the copy and nobody knows the day, on any
    later one; `known` as `judged` gives it."""
    paused = assignment.paused_on is not None
    return sorted(
        {
            known[pk].name
            for day, pk in some
            if pk in known and violations(known[pk], limits.during(day, None if paused else day))
        }
    )
