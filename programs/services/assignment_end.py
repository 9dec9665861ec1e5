"""End what a client follows. What was logged stays, and so does the record of what was planned."""

from datetime import date

from django.db import transaction
from django.db.models import QuerySet
from django.utils import timezone

from programs.models import Assignment, PlannedSession
from programs.signals import plan_changed


def open_sessions(assignments: QuerySet[Assignment] | list[Assignment], since: date) -> QuerySet[PlannedSession]:
    """Return the sessions from `since` on that nothing has been logged for: the only ones a later change may touch."""
    return PlannedSession.objects.filter(assignment__in=assignments, date__gte=since, performed=None)


@transaction.atomic
def assignment_end(*, assignment: Assignment, last_day: date) -> Assignment:
    """End the assignment after `last_day`: later sessions are cancelled, unless they are logged already."""
    end_all(Assignment.objects.filter(pk=assignment.pk), last_day)
    assignment.refresh_from_db()
    return assignment


def end_all(assignments: QuerySet[Assignment], last_day: date) -> None:
    """End several in a few queries, inside the caller's transaction."""
    rows = list(assignments.select_for_update())
    if not rows:
        return
    later = PlannedSession.objects.filter(assignment__in=rows, date__gt=last_day, performed=None, cancelled_at=None)
    later.update(cancelled_at=timezone.now())
    Assignment.objects.filter(pk__in=[row.pk for row in rows]).update(
        status=Assignment.Status.ENDED, ended_on=last_day, paused_on=None, paused_at=None
    )
    for client_id in {row.client_id for row in rows}:
        plan_changed.send(sender=Assignment, client_id=client_id, since=last_day)
