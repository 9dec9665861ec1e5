"""Take one difference of a client's copy back: on the sessions that are still to come and not begun."""

from dataclasses import replace

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from accounts.models import Client, User
from programs.document import document_from_json
from programs.document.adapt import adapt, start_loads
from programs.models import Adaptation, Assignment, PlannedSession, PlannedSlot
from programs.services.adaptations import changes_of
from programs.services.client_limits import closed_slots, limits_of_client
from programs.services.revision_load import followings
from programs.services.revision_plan import SessionStep, revision_plan
from programs.services.revision_rows import SlotWrites
from programs.services.revision_written import Written
from programs.signals import plan_changed


class AdaptationError(ValueError):
    """It cannot be taken back; the message says why."""


@transaction.atomic
def adaptation_undo(*, adaptation: Adaptation, user: User) -> int:
    """Mark the difference as undone, and write what the copy is without it; return how many sessions changed.

    What was logged, is running, is over or was cancelled stays, and so does what a decision changed for this client.
    Raises AdaptationError when it is undone already, when the copy does not say what it came from, and when the
    client would get an exercise that their limits close. Not checked here: that `user` coaches the client.
    """
    # The order of locks is that of a revision: client, copy, sessions, rows (revision_apply).
    list(Client.objects.select_for_update(no_key=True).filter(pk=adaptation.client_id).values_list("pk"))
    assignment = (
        Assignment.objects.select_for_update(of=("self",))
        .select_related("client__user", "program")
        .get(pk=adaptation.assignment_id)
    )
    list(PlannedSession.objects.select_for_update().filter(assignment=assignment).order_by("pk").values_list("pk"))
    list(PlannedSlot.objects.select_for_update().filter(session__assignment=assignment).values_list("pk"))
    row = Adaptation.objects.select_for_update().get(pk=adaptation.pk)
    if row.undone_at is not None:
        raise AdaptationError(_("This was undone already."))
    if assignment.program is None:
        raise AdaptationError(_("The program is gone, so it cannot be said what the plan was without this."))
    steps = _steps(assignment, row)
    row.undone_at, row.undone_by = timezone.now(), user
    row.save(update_fields=["undone_at", "undone_by"])
    _write(assignment, steps)
    _forget_start(assignment, row)
    days = [day for step in steps for day in step.days()]
    plan_changed.send(
        sender=Assignment,
        client_id=assignment.client_id,
        since=min(days, default=assignment.client.user.today()),
    )
    return len(steps)


def _steps(assignment: Assignment, row: Adaptation) -> list[SessionStep]:
    """Return what changes on open sessions: a revision from the copy with it to that without."""
    revision = assignment.program.revisions.filter(version=assignment.program_version).first()
    if revision is None:
        raise AdaptationError(_("The program's version is gone, so it cannot be said what the plan was without this."))
    written = document_from_json(revision.document)
    [following] = followings(assignment.program, [assignment], written)
    kept = changes_of(Adaptation.objects.filter(assignment=assignment).exclude(pk=row.pk))
    document = adapt(written, kept)
    limits = limits_of_client(assignment.client, assignment.client.user.today())
    if closed := closed_slots(document, limits):
        names = ", ".join(sorted({one.exercise.name for one in closed}))
        raise AdaptationError(
            _("Without this the client would get what their limits close: %(names)s.") % {"names": names}
        )
    without = Written(written, document, {}, start_loads(document, kept))
    ours = replace(following, new=without)
    plan = revision_plan(ours, assignment.program_version)
    if plan.unknown:
        raise AdaptationError(_("This copy does not say what it came from, so nothing can be put back."))
    return [step for step in plan.steps if step.session is None or not step.cancels]


def _write(assignment: Assignment, steps: list[SessionStep]) -> None:
    slots = SlotWrites()
    for step in steps:
        if step.session is None:
            waits = assignment.paused_on is not None and step.date >= assignment.paused_on
            fields = {**step.fields, "cancelled_at": assignment.paused_at if waits else None}
            session = PlannedSession.objects.create(assignment=assignment, client_id=assignment.client_id, **fields)
        else:
            session = step.session
        for one in step.slots:
            if (resolved := one.resolved(False)) is not None:
                slots.step(session, resolved)
    slots.save()


def _forget_start(assignment: Assignment, row: Adaptation) -> None:
    """Take the starting load off: it stands beside the prescription, which is what a revision compares."""
    if row.kind == Adaptation.Kind.START:
        open_rows = PlannedSlot.objects.filter(session__assignment=assignment, session__performed=None)
        open_rows.filter(exercise=row.exercise_id).update(start_load_kg=None)
