"""On which weekdays the training days of a copy fall after a revision."""

from programs.services.assignment_dates import days_a_week
from programs.services.revision_plan import RevisionPlan


def weekdays_after(plan: RevisionPlan) -> list[int]:
    """Return one weekday (Monday 0) for each training day of the fullest week: where the last such day falls."""
    stepped = {step.session.pk: step for step in plan.steps if step.session is not None}
    placed = [
        (one.date, one.day_number) for one in plan.following.sessions if one.pk not in stepped and not one.cancelled_at
    ]
    for step in plan.steps:
        number = step.fields.get("day_number", step.session.day_number if step.session else 0)
        if not step.cancels:
            placed.append((step.date, number))
    found = {number: on.weekday() for on, number in sorted(placed)}
    old = plan.assignment.weekdays
    result: list[int] = []
    for number in range(1, days_a_week(plan.following.new.document) + 1):
        wanted = [found.get(number), old[number - 1] if number <= len(old) else None, *range(7)]
        result.append(next(day for day in wanted if day is not None and day not in result))
    return result
