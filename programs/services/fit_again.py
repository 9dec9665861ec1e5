"""Write what a running copy is fitted to now. Who may do it is checked by the caller."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from accounts.models import User
from programs.models import Adaptation, Assignment
from programs.services.adaptation_undo import forget_starts
from programs.services.adaptations import Adapted, change_of, rows_to_make
from programs.services.client_limits import limits_by_client
from programs.services.copy_rewrite import CopyError, copy_locked, copy_steps, copy_write, following_of, written_of
from programs.services.fit_since import facts_kept, fitted_on


@dataclass(frozen=True, slots=True)
class Refit:
    """What was written: how many sessions changed, and how many differences were added and taken back."""

    sessions: int
    added: int
    back: int


@transaction.atomic
def copy_fit_again(
    *,
    assignment: Assignment,
    version: int,
    standing: Collection[int],
    adapted: Sequence[Adapted],
    back: Collection[int],
    by: User,
    for_some_days: bool = False,
) -> Refit:
    """Record the differences in `adapted`, undo those with ids in `back`, and write what the copy is then.

    `version` and `standing` are what the copy followed, and the ids of what counted, when this was worked out. Only
    sessions that are to come and not begun are written. Unless it is for some days alone, the copy counts as fitted to
    what is known of the client now. Raises CopyError when the copy changed meanwhile, is over, or would give the client
    what their limits close; then nothing is changed.
    """
    row = copy_locked(assignment.pk, assignment.client_id)
    if row.is_over(row.client.user.today()):
        raise CopyError(_("Its last day is over. Assign the program anew."))
    rows = list(Adaptation.objects.select_for_update().filter(assignment=row, undone_at=None))
    if row.program_version != version or {one.pk for one in rows} != set(standing):
        raise CopyError(_("The plan was changed meanwhile. Look at it again; nothing was written."))
    written = written_of(row)
    following = following_of(row, written)
    gone = [one for one in rows if one.pk in set(back)]
    kept = [change_of(one) for one in rows if one not in gone]
    others = {one.change.exercise for one in adapted if one.change.kind in ("swap", "leave-out", "one-side")}
    others |= {one.to_exercise_id for one in gone if one.exercise_id in others}
    steps = copy_steps(following, written, [*kept, *(one.change for one in adapted)], instead_of=others)
    if gone:
        Adaptation.objects.filter(pk__in=[one.pk for one in gone]).update(undone_at=timezone.now(), undone_by=by)
    Adaptation.objects.bulk_create(rows_to_make(row, adapted, by))
    if steps:
        copy_write(following, steps, by, instead_of=others)
    forget_starts(row, gone)
    if not for_some_days:
        limits = limits_by_client([row.client], fitted_on(row, row.client.user.today()))
        row.fitted_to = facts_kept([row.client], limits)[row.client_id]
        row.save(update_fields=["fitted_to"])
    return Refit(len(steps), len(adapted), len(gone))
