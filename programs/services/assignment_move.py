"""Pause, resume and shift what a client follows. Sessions that have been logged never change."""

from datetime import date, timedelta

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from programs.models import Assignment, PlannedSession
from programs.services.assignment_end import open_sessions
from programs.signals import plan_changed

MOST_DAYS = 56


class MoveError(ValueError):
    """The change does not fit the assignment; the message says why."""


@transaction.atomic
def assignment_pause(*, assignment: Assignment, since: date) -> Assignment:
    """Stop the plan from `since` on: the sessions that are open are cancelled until it is resumed."""
    assignment = _locked(assignment, Assignment.Status.ACTIVE)
    now = timezone.now()
    open_sessions([assignment], since).filter(cancelled_at=None).update(cancelled_at=now)
    assignment.status = Assignment.Status.PAUSED
    assignment.paused_on = since
    assignment.paused_at = now
    assignment.save(update_fields=["status", "paused_on", "paused_at"])
    _tell(assignment, since)
    return assignment


@transaction.atomic
def assignment_resume(*, assignment: Assignment, since: date) -> Assignment:
    """Go on from `since`: what the pause cancelled comes back, moved by the fewest whole weeks that put none of it
    before `since`, so that every training day keeps its weekday."""
    assignment = _locked(assignment, Assignment.Status.PAUSED)
    if assignment.paused_on and since < assignment.paused_on:
        raise MoveError(_("It was paused on a later day than that."))
    waiting = list(open_sessions([assignment], date.min).filter(cancelled_at=assignment.paused_at).order_by("date"))
    paused_on = assignment.paused_on or since
    if waiting:
        # Rounded up: -(-a // b).
        weeks = max(0, -(-(since - waiting[0].date).days // 7))
        _redate(waiting, timedelta(weeks=weeks), cancelled_at=None)
    assignment.status = Assignment.Status.ACTIVE
    assignment.paused_on = assignment.paused_at = None
    assignment.save(update_fields=["status", "paused_on", "paused_at"])
    _tell(assignment, paused_on)
    return assignment


@transaction.atomic
def assignment_shift(*, assignment: Assignment, since: date, days: int) -> Assignment:
    """Move the open sessions from `since` on by `days` (back when negative).

    Raises MoveError when it is not running, when nothing is left to move, when the move is over 8 weeks, and when a
    session would come before `since`.
    """
    assignment = _locked(assignment, Assignment.Status.ACTIVE)
    if days == 0 or abs(days) > MOST_DAYS:
        raise MoveError(_("Move by 1 to %(most)s days.") % {"most": MOST_DAYS})
    moving = list(open_sessions([assignment], since).filter(cancelled_at=None).order_by("date"))
    if not moving:
        raise MoveError(_("No session is left to move from that day on."))
    if moving[0].date + timedelta(days=days) < since:
        raise MoveError(_("That would put a session before %(date)s.") % {"date": since.isoformat()})
    earliest = min(moving[0].date, moving[0].date + timedelta(days=days))
    _redate(moving, timedelta(days=days))
    if days % 7:
        assignment.weekdays = [(weekday + days) % 7 for weekday in assignment.weekdays]
        assignment.save(update_fields=["weekdays"])
    _tell(assignment, earliest)
    return assignment


def _locked(assignment: Assignment, status: str) -> Assignment:
    fresh = Assignment.objects.select_for_update().get(pk=assignment.pk)
    if fresh.status != status:
        raise MoveError(_("This program is %(status)s now. Reload the page.") % {"status": fresh.get_status_display()})
    return fresh


def _redate(sessions: list[PlannedSession], by: timedelta, **fields: object) -> None:
    for session in sessions:
        session.date += by
        for field, value in fields.items():
            setattr(session, field, value)
    PlannedSession.objects.bulk_update(sessions, ["date", *fields], batch_size=200)


def _tell(assignment: Assignment, since: date) -> None:
    plan_changed.send(sender=Assignment, client_id=assignment.client_id, since=since)
