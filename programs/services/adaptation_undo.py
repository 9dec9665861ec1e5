"""Take one difference of a client's copy back: on the sessions that are still to come and not begun."""

from collections.abc import Iterable

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from accounts.models import User
from programs.models import Adaptation, Assignment, PlannedSlot
from programs.services.adaptations import changes_of
from programs.services.copy_rewrite import CopyError, copy_locked, copy_steps, copy_write, following_of, written_of


class AdaptationError(ValueError):
    """It cannot be taken back; the message says why."""


@transaction.atomic
def adaptation_undo(*, adaptation: Adaptation, user: User) -> int:
    """Mark the difference as undone, and write what the copy is without it; return how many sessions changed.

    What was logged, is running, is over or was cancelled stays, and so does what a decision changed for this client.
    Raises AdaptationError when it is undone already, when the copy does not say what it came from, and when the
    client would get an exercise that their limits close. Not checked here: that `user` coaches the client.
    """
    assignment = copy_locked(adaptation.assignment_id, adaptation.client_id)
    row = Adaptation.objects.select_for_update().get(pk=adaptation.pk)
    if row.undone_at is not None:
        raise AdaptationError(_("This was undone already."))
    try:
        written = written_of(assignment)
        following = following_of(assignment, written)
        kept = changes_of(Adaptation.objects.filter(assignment=assignment).exclude(pk=row.pk))
        steps = copy_steps(following, written, kept)
    except CopyError as refused:
        raise AdaptationError(str(refused)) from refused
    row.undone_at, row.undone_by = timezone.now(), user
    row.save(update_fields=["undone_at", "undone_by"])
    steps = [step for step in steps if step.session is None or not step.cancels]
    copy_write(following, steps, user)
    forget_starts(assignment, [row])
    return len(steps)


def forget_starts(assignment: Assignment, rows: Iterable[Adaptation]) -> None:
    """Take starting loads off: they stand beside the prescription, which is what a revision compares."""
    exercises = [row.exercise_id for row in rows if row.kind == Adaptation.Kind.START]
    open_rows = PlannedSlot.objects.filter(session__assignment=assignment, session__performed=None)
    open_rows.filter(exercise__in=exercises).update(start_load_kg=None)
