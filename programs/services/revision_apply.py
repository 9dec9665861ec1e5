"""Bring the current version of a program to clients who follow an earlier one."""

from collections.abc import Collection, Iterable
from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils import timezone

from accounts.models import Client, User
from programs.document import document_from_json
from programs.models import Assignment, AssignmentRevision, PlannedSession, PlannedSlot, Program, SessionRevision
from programs.services.program_write import locked
from programs.services.revision_closed import closed_by
from programs.services.revision_load import followings
from programs.services.revision_plan import KEPT, LeftAlone, RevisionPlan, SessionStep, revision_plan
from programs.services.revision_rows import SlotWrites, linked, plain
from programs.services.revision_weekdays import weekdays_after
from programs.signals import plan_changed


@transaction.atomic
def revision_bring(
    *,
    program: Program,
    version: int,
    assignments: Iterable[Assignment],
    user: User,
    take: Collection[int] = (),
) -> list[AssignmentRevision]:
    """Write what differs between the version each assignment follows and `version` onto the sessions that are open.

    A session in which anything is logged, or that runs, is never written; nor is one before today (of the client), or
    one that was cancelled. Rows that were changed for the client keep their prescription unless their session is in
    `take` (ids of planned sessions). A client to whom the change would bring an exercise that their limits close, and
    one whose copy does not say what it came from, is left out.

    Raises StaleVersion when the program is no longer at `version`. Not checked here: that `user` coaches the clients.
    """
    program = locked(program, version)
    ids = [one.pk for one in assignments]
    _lock(ids)
    rows = Assignment.objects.filter(pk__in=ids, program=program, program_version__lt=version)
    today = [one for one in rows.select_related("client__user") if not one.is_over(one.client.user.today())]
    plans = [revision_plan(one, version) for one in followings(program, today, document_from_json(program.document))]
    closed = closed_by(plans)
    plans = [plan for plan in plans if plan.assignment.pk not in closed and not plan.unknown]
    return _write(plans, user, set(take), timezone.now())


def _lock(ids: list[int]) -> None:
    """Lock, in this order everywhere: clients, their copies, the sessions, the rows.

    A phone that begins one of these sessions refers to its row, and so either comes first and is seen by what is read
    after this (in queries of their own: a joined row would still be the old one), or waits until the change is made.
    """
    clients = Client.objects.filter(assignments__in=ids).order_by("pk").values_list("pk", flat=True).distinct()
    found = sorted(clients)
    list(Client.objects.select_for_update(no_key=True).filter(pk__in=found).order_by("pk").values_list("pk"))
    list(Assignment.objects.select_for_update().filter(pk__in=ids).order_by("pk").values_list("pk"))
    sessions = PlannedSession.objects.filter(assignment__in=ids)
    list(sessions.select_for_update().order_by("pk").values_list("pk"))
    slots = PlannedSlot.objects.filter(session__assignment__in=ids)
    list(slots.select_for_update(of=("self",)).order_by("pk").values_list("pk"))


def _write(plans: list[RevisionPlan], user: User, take: set[int], now: datetime) -> list[AssignmentRevision]:
    revisions, records = [], []
    slots, made, changed = SlotWrites(), [], []
    for plan in plans:
        kept = _kept(plan, take)
        revision = _revision(plan, user, now, kept)
        revisions.append(revision)
        for step in plan.steps:
            if step.cancels and step.offered and step.session and step.session.pk not in take:
                continue
            session, before, after = session_written(plan.assignment, step, now, plan.to_version)
            (changed if step.session else made).append((session, list(after)))
            resolved = [one.resolved(session.pk in take) for one in step.slots] if not step.cancels else []
            rows = [slots.step(session, one) for one in resolved if one is not None]
            records.append(SessionRevision(revision=revision, session=session, before=before, after=after, slots=rows))
    PlannedSession.objects.bulk_create([session for session, _names in made], batch_size=500)
    names = sorted({name for _session, fields in changed for name in fields})
    if names:
        PlannedSession.objects.bulk_update([session for session, _names in changed], names, batch_size=200)
    slots.save()
    AssignmentRevision.objects.bulk_create(revisions, batch_size=500)
    for record in records:
        record.slots = linked(record.slots)
    SessionRevision.objects.bulk_create(records, batch_size=500)
    for plan in plans:
        _follow(plan)
    return revisions


def _kept(plan: RevisionPlan, take: set[int]) -> list[LeftAlone]:
    return [
        LeftAlone(step.session.date, step.day_name, KEPT)
        for step in plan.steps
        if step.session and step.offered and step.session.pk not in take
    ]


def _revision(plan: RevisionPlan, user: User, now: datetime, kept: list[LeftAlone]) -> AssignmentRevision:
    return AssignmentRevision(
        assignment=plan.assignment,
        from_version=plan.assignment.program_version,
        to_version=plan.to_version,
        weekdays_before=plan.assignment.weekdays,
        left_alone=[
            {"date": one.date.isoformat() if one.date else None, "day": one.day, "why": one.why}
            for one in [*plan.left_alone, *kept]
        ],
        made_by=user,
        made_at=now,
    )


def session_written(
    assignment: Assignment, step: SessionStep, now: datetime, version: int
) -> tuple[PlannedSession, dict[str, Any] | None, dict[str, Any]]:
    """Return the session with the step's fields set, and what they were and are."""
    fields = {"cancelled_at": now, "program_version": version} if step.cancels else dict(step.fields)
    if step.session is None:
        waits = assignment.paused_on is not None and step.date >= assignment.paused_on
        fields["cancelled_at"] = assignment.paused_at if waits else None
        session = PlannedSession(assignment=assignment, client_id=assignment.client_id, **fields)
        return session, None, plain(fields)
    before = {name: getattr(step.session, name) for name in fields}
    for name, value in fields.items():
        setattr(step.session, name, value)
    return step.session, plain(before), plain(fields)


def _follow(plan: RevisionPlan) -> None:
    """Say that the assignment follows the new version, and ask for targets and everything else that depends on it."""
    assignment = plan.assignment
    first = min((day for step in plan.steps for day in step.days()), default=None)
    weekdays = weekdays_after(plan)
    Assignment.objects.filter(pk=assignment.pk).update(program_version=plan.to_version, weekdays=weekdays)
    if first is not None:
        plan_changed.send(sender=AssignmentRevision, client_id=assignment.client_id, since=first)
