"""Take a revision back: as the coach wishes, or because the client was training already when it came."""

from collections.abc import Iterable
from datetime import datetime

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from accounts.models import Client, User
from programs.models import Assignment, AssignmentRevision, PlannedSession, PlannedSlot, SessionRevision
from programs.services.revision_rows import SlotWrites, plain, typed
from programs.services.revision_slots import content_of, fields_of
from programs.signals import plan_changed

# Why a session stays as the revision wrote it.
BEGUN, OVER, REWRITTEN = "begun", "over", "rewritten"
# The place in the calendar may have been moved since, by hand or by a pause: that stays.
MOVED_SINCE = ("date", "cancelled_at")


class UndoError(ValueError):
    """The revision cannot be taken back; the message says why."""


@transaction.atomic
def revision_undo(*, revision: AssignmentRevision, user: User) -> AssignmentRevision:
    """Put back what was there on every session that is still to come and that nothing was logged or rewritten on.

    The assignment follows the earlier version again. Raises UndoError when the revision was taken back already, when a
    later one stands on it, and for what a change of adaptations wrote.
    """
    _lock(revision.assignment.client_id, revision.sessions.values_list("session", flat=True))
    revision = (
        AssignmentRevision.objects.select_for_update(of=("self",))
        .select_related("assignment__client__user")
        .get(pk=revision.pk)
    )
    if revision.undone_at is not None:
        raise UndoError(_("This was taken back already."))
    assignment = revision.assignment
    if revision.fitting:
        raise UndoError(_("Undo its differences one by one, beside the plan."))
    if assignment.revisions.filter(undone_at=None, fitting=False, pk__gt=revision.pk).exists():
        raise UndoError(_("A later version was brought since. Take that back first."))
    today = assignment.client.user.today()
    records = list(revision.sessions.filter(withdrawn_at=None).select_related("revision", "session__performed"))
    rows = _rows(records)
    back = []
    for record in records:
        record.kept = _why_kept(record, rows, today)
        if not record.kept:
            back.append(record)
    first = min((day for one in back for day in _put_back(one)), default=None)
    _write_slots(back, rows)
    SessionRevision.objects.bulk_update(records, ["kept"], batch_size=200)
    revision.undone_at, revision.undone_by = timezone.now(), user
    revision.save(update_fields=["undone_at", "undone_by"])
    Assignment.objects.filter(pk=assignment.pk).update(
        program_version=revision.from_version, weekdays=revision.weekdays_before
    )
    if first is not None:
        plan_changed.send(sender=AssignmentRevision, client_id=assignment.client_id, since=first)
    return revision


def revision_withdraw(*, planned: PlannedSession, begun_at: datetime) -> None:
    """Give a session that began at `begun_at` the plan that its client saw then, if a revision came after that.

    For a phone without a network: it tells of the beginning when the change is made already. Inside the caller's
    transaction; the session must not be begun yet here.
    """
    # First the lock, for which a revision that is being written makes us wait; only then is what it wrote to be seen.
    # Not the client's, so that a phone need not wait for the worker.
    list(PlannedSession.objects.select_for_update(no_key=True).filter(pk=planned.pk).values_list("pk"))
    late = SessionRevision.objects.filter(session=planned, withdrawn_at=None, revision__undone_at=None)
    late = late.filter(revision__made_at__gt=begun_at)
    for record in late.select_related("revision", "session").order_by("-revision__made_at", "-pk"):
        rows = _rows([record])
        _put_back(record)
        _write_slots([record], rows)
        record.withdrawn_at = timezone.now()
        record.save(update_fields=["withdrawn_at"])


def was_planned(planned_id: int | None, slot: int) -> bool:
    """Say whether a row that is gone belonged to a planned session until a revision took it out."""
    if planned_id is None:
        return False
    records = SessionRevision.objects.filter(session=planned_id).values_list("slots", flat=True)
    return any(one["slot"] == slot for slots in records for one in slots)


def _lock(client_id: int, sessions: Iterable[int]) -> None:
    """Lock in the order in which bringing a revision does."""
    list(Client.objects.select_for_update(no_key=True).filter(pk=client_id).values_list("pk"))
    ids = list(sessions)
    list(PlannedSession.objects.select_for_update().filter(pk__in=ids).order_by("pk").values_list("pk"))
    list(PlannedSlot.objects.select_for_update().filter(session__in=ids).order_by("pk").values_list("pk"))


def _rows(records: Iterable[SessionRevision]) -> dict[int, PlannedSlot]:
    return {row.pk: row for row in PlannedSlot.objects.filter(session__in=[one.session_id for one in records])}


def _why_kept(record: SessionRevision, rows: dict[int, PlannedSlot], today: object) -> str:
    if getattr(record.session, "performed", None) is not None:
        return BEGUN
    if record.session.date < today:
        return OVER
    for one in record.slots:
        row = rows.get(one["slot"])
        if (row is None) != (one["after"] is None):
            return REWRITTEN
        if row is not None and content_of(fields_of(row)) != content_of(one["after"]):
            return REWRITTEN
    return ""


def _put_back(record: SessionRevision) -> list[object]:
    """Set the session's fields as they were; return the days that this is about. A session that the revision made is
    cancelled, not removed: a phone may have it."""
    session = record.session
    days = [session.date]
    if record.before is None:
        session.cancelled_at = session.cancelled_at or timezone.now()
        # Of a version that does not have the day: if it comes again, this session does.
        session.program_version = record.revision.from_version
        session.save(update_fields=["cancelled_at", "program_version"])
        return days
    now = plain({name: getattr(session, name) for name in record.after})
    before = {
        name: value
        for name, value in typed(record.before).items()
        if name not in MOVED_SINCE or now[name] == record.after[name]
    }
    for name, value in before.items():
        setattr(session, name, value)
    session.save(update_fields=list(before))
    return [*days, session.date]


def _write_slots(records: Iterable[SessionRevision], rows: dict[int, PlannedSlot]) -> None:
    writes = SlotWrites()
    for record in records:
        for one in record.slots if record.before is not None else ():
            row = rows.get(one["slot"])
            if one["before"] is None:
                writes.gone.extend([one["slot"]] if row else [])
            elif row is None:
                # Under its old id, by which a phone may know it.
                writes.made.append(PlannedSlot(pk=one["slot"], session_id=record.session_id, **one["before"]))
            else:
                now = fields_of(row)
                writes.put(row.pk, now, one["before"], content_of(now) != content_of(one["before"]))
    writes.save()
