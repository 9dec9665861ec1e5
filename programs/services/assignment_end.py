"""End what a client follows. What was logged stays, and so does the record of what was planned."""

from datetime import date

from django.db import transaction
from django.db.models import F, QuerySet
from django.utils import timezone
from django.utils.translation import gettext as _

from programs.models import Assignment, PlannedSession
from programs.signals import plan_changed, plans_changed


def open_sessions(assignments: QuerySet[Assignment] | list[Assignment], since: date) -> QuerySet[PlannedSession]:
    """Return the sessions from `since` on that nothing has been logged for: the only ones a later change may touch."""
    return PlannedSession.objects.filter(assignment__in=assignments, date__gte=since, performed=None)


class EndError(ValueError):
    """The last day cannot be set so; the message says why."""


@transaction.atomic
def assignment_end(*, assignment: Assignment, last_day: date) -> Assignment:
    """End the assignment after `last_day`: later sessions are cancelled, unless they are logged already.

    A last day that is still to come can be corrected: what the earlier end cancelled up to the new one is due again.
    """
    end_all(Assignment.objects.filter(pk=assignment.pk), last_day)
    fresh = Assignment.objects.get(pk=assignment.pk)
    _bring_back(fresh, fresh.sessions.filter(date__lte=last_day))
    assignment.refresh_from_db()
    return assignment


@transaction.atomic
def assignment_reopen(*, assignment: Assignment) -> Assignment:
    """Take an end back before its last day is over: the assignment runs on as it did. Raises EndError."""
    fresh = Assignment.objects.select_for_update().get(pk=assignment.pk)
    if fresh.status != Assignment.Status.ENDED or fresh.is_over(assignment.client.user.today()):
        raise EndError(_("Its last day is over. Assign the program anew."))
    since = fresh.ended_on
    _bring_back(fresh, fresh.sessions.all())
    Assignment.objects.filter(pk=fresh.pk).update(status=Assignment.Status.ACTIVE, ended_on=None, ended_at=None)
    plan_changed.send(sender=Assignment, client_id=fresh.client_id, since=since)
    assignment.refresh_from_db()
    return assignment


def _bring_back(assignment: Assignment, sessions: QuerySet[PlannedSession]) -> None:
    """Let what the end cancelled be due again. It may be of an earlier version than the rest: the copy then follows
    that one, so that the later version is offered anew."""
    back = sessions.filter(performed=None, cancelled_at=assignment.ended_at) if assignment.ended_at else sessions.none()
    versions = [one for one in back.values_list("program_version", flat=True) if one is not None]
    if back.update(cancelled_at=None) and versions and min(versions) < assignment.program_version:
        Assignment.objects.filter(pk=assignment.pk).update(program_version=min(versions))


def end_all(assignments: QuerySet[Assignment], last_day: date) -> None:
    """End several in a few queries, inside the caller's transaction, and tell the listeners."""
    if since := end_untold(assignments, last_day):
        plans_changed.send(sender=Assignment, since=since)


def end_untold(assignments: QuerySet[Assignment], last_day: date) -> dict[int, date]:
    """End several as `end_all` does; return from which day each client's plan changed, for the caller to tell."""
    rows = list(assignments.select_for_update())
    if not rows:
        return {}
    now = timezone.now()
    sessions = PlannedSession.objects.filter(assignment__in=rows, performed=None)
    # Whatever an earlier end cancelled is cancelled by this one now.
    sessions.filter(cancelled_at=F("assignment__ended_at")).update(cancelled_at=now)
    sessions.filter(date__gt=last_day, cancelled_at=None).update(cancelled_at=now)
    Assignment.objects.filter(pk__in=[row.pk for row in rows]).update(
        status=Assignment.Status.ENDED, ended_on=last_day, ended_at=now, paused_on=None, paused_at=None
    )
    return {row.client_id: min(last_day, row.ended_on or last_day) for row in rows}
