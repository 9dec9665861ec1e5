"""What a revision must not bring: exercises that a client's limits close."""

from collections.abc import Iterable

from programs.services.client_limits import judged, limits_by_client
from programs.services.limits import violations
from programs.services.revision_plan import RevisionPlan


def closed_by(plans: Iterable[RevisionPlan]) -> dict[int, list[str]]:
    """Return, by assignment, the names of exercises that the plan would bring though they are closed to the client.

    A row that names the exercise already is not brought by the revision. Three queries at most.
    """
    many = list(plans)
    if not many:
        return {}
    limits = limits_by_client([plan.assignment.client for plan in many], min(plan.following.since for plan in many))
    brought = {plan.assignment.pk: _brought(plan) for plan in many if plan.assignment.client_id in limits}
    known = judged(exercise for ids in brought.values() for exercise in ids) if any(brought.values()) else {}
    found = {}
    for plan in many:
        theirs = [known[one] for one in brought.get(plan.assignment.pk, ()) if one in known]
        closed = sorted({row.name for row in theirs if violations(row, limits[plan.assignment.client_id])})
        if closed:
            found[plan.assignment.pk] = closed
    return found


def _brought(plan: RevisionPlan) -> set[int]:
    return {
        slot.after["exercise_id"]
        for step in plan.steps
        for slot in step.slots
        if slot.after and (slot.before is None or slot.before["exercise_id"] != slot.after["exercise_id"])
    }
