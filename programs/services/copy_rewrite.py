"""Write what a change of a client's adaptations makes of their copy: on open sessions, and on nothing else."""

from collections.abc import Collection, Sequence
from dataclasses import replace

from django.utils import timezone
from django.utils.translation import gettext as _

from accounts.models import Client, User
from programs.document import Document, document_from_json
from programs.document.adapt import Change, adapt, start_loads
from programs.models import Assignment, AssignmentRevision, PlannedSession, PlannedSlot, SessionRevision
from programs.services.client_limits import dated_limits, judged
from programs.services.revision_apply import session_written
from programs.services.revision_closed import brought, closed_names
from programs.services.revision_load import followings
from programs.services.revision_plan import OPEN, Following, SessionStep, revision_plan, state_of
from programs.services.revision_rows import SlotWrites, linked
from programs.services.revision_slots import SlotStep
from programs.services.revision_written import Written
from programs.signals import plan_changed


class CopyError(ValueError):
    """The copy cannot be changed so; the message says why."""


def copy_locked(assignment_id: int, client_id: int) -> Assignment:
    """Lock a copy in the order of a revision (client, copy, sessions, rows) and return it. Inside a transaction."""
    list(Client.objects.select_for_update(no_key=True).filter(pk=client_id).values_list("pk"))
    assignment = (
        Assignment.objects.select_for_update(of=("self",))
        .select_related("client__user", "program")
        .get(pk=assignment_id)
    )
    list(PlannedSession.objects.select_for_update().filter(assignment=assignment).order_by("pk").values_list("pk"))
    list(PlannedSlot.objects.select_for_update().filter(session__assignment=assignment).values_list("pk"))
    return assignment


def written_of(assignment: Assignment) -> Document:
    """Return the program as the copy follows it, without adaptations. Raises CopyError where it is not kept."""
    if assignment.program is None:
        raise CopyError(_("The program is gone, so it cannot be said what the plan is written from."))
    revision = assignment.program.revisions.filter(version=assignment.program_version).first()
    if revision is None:
        raise CopyError(_("The program's version is gone, so it cannot be said what the plan is written from."))
    return document_from_json(revision.document)


def following_of(assignment: Assignment, written: Document) -> Following:
    """Return the copy with its sessions and what they were written from (seven queries)."""
    [following] = followings(assignment.program, [assignment], written)  # type: ignore[arg-type]
    return following


def copy_steps(
    following: Following, written: Document, changes: Sequence[Change], *, instead_of: Collection[int] = ()
) -> list[SessionStep]:
    """Return what changes on open sessions when the copy is made of `changes`; `instead_of` is as for `copy_write`.
    Raises CopyError when that would give the client, on the day of a session, what their limits close then, and when
    the copy does not say what it came from."""
    assignment = following.assignment
    document = adapt(written, changes)
    to = Written(written, document, {}, start_loads(document, changes))
    plan = revision_plan(replace(following, new=to), assignment.program_version)
    if plan.unknown:
        raise CopyError(_("This copy does not say what it came from, so nothing can be changed in it."))
    limits = dated_limits(assignment.client, following.since)
    some = brought((step.date, _done(step, instead_of)) for step in plan.steps) if limits.rows else set()
    known = judged(pk for _day, pk in some) if some else {}
    if closed := closed_names(assignment, some, limits, known):
        raise CopyError(_("The client would get what their limits close: %(names)s.") % {"names": ", ".join(closed)})
    return plan.steps


def _done(step: SessionStep, instead_of: Collection[int]) -> list[SlotStep]:
    """Return what is done to the rows of a session: where a decision changed one, only if its exercise is exchanged."""
    done = []
    for one in () if step.cancels else step.slots:
        taken = one.offered and one.row is not None and one.row.exercise_id in instead_of
        if (resolved := one.resolved(taken)) is not None:
            done.append(resolved)
    return done


def decided_in(following: Following) -> dict[str, int]:
    """Return the exercise that a decision gave, by the key of the slot in whose place it stands, on sessions that may
    still be written (no query)."""
    found: dict[str, int] = {}
    for session in following.sessions:
        origin = following.written.get(session.program_version or 0)
        if origin is None or state_of(session, following) != OPEN:
            continue
        written = {one["slot_key"]: one["exercise_id"] for one in origin.rows(session.day_key)}
        for row in session.slots.all():
            if written.get(row.slot_key, row.exercise_id) != row.exercise_id:
                found[origin.to(row.slot_key)] = row.exercise_id
    return found


def copy_write(
    following: Following, steps: Sequence[SessionStep], user: User, *, instead_of: Collection[int] = ()
) -> None:
    """Write the steps, and keep what was there: a phone that began before has it back.

    A row that a decision changed stays, unless its exercise is one of `instead_of` (ids), for which another comes now.
    """
    assignment, now = following.assignment, timezone.now()
    revision = AssignmentRevision.objects.create(
        assignment=assignment,
        from_version=assignment.program_version,
        to_version=assignment.program_version,
        weekdays_before=assignment.weekdays,
        made_by=user,
        made_at=now,
        fitting=True,
    )
    slots, records = SlotWrites(), []
    for step in steps:
        session, before, after = session_written(assignment, step, now, assignment.program_version)
        session.save(update_fields=list(after) if step.session else None)
        done = [slots.step(session, one) for one in _done(step, instead_of)]
        records.append(SessionRevision(revision=revision, session=session, before=before, after=after, slots=done))
    slots.save()
    for record in records:
        record.slots = linked(record.slots)
    SessionRevision.objects.bulk_create(records, batch_size=500)
    days = [day for step in steps for day in step.days()]
    today = assignment.client.user.today()
    plan_changed.send(sender=Assignment, client_id=assignment.client_id, since=min(days, default=today))
