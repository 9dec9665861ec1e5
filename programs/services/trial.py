"""What if: try changes in a scratch copy of a program, then keep them as one revision or drop them without a trace.

A trial belongs to one person and lasts until it is kept or dropped, also over a reload or another device.
"""

from dataclasses import dataclass
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from accounts.models import User
from programs.document import EditError, document_from_json, document_to_json
from programs.document.edits import Operation
from programs.document.summary import summarise
from programs.models import Program, ProgramRevision, TrialStep
from programs.services.program_write import (
    StaleVersion,
    changed_document,
    exercise_names,
    locked,
    save_version,
    with_exercise,
)

# A trial is a question, not a second history.
MOST_STEPS = 100


@dataclass(frozen=True, slots=True)
class Trial:
    """Where a trial stands: at `step`, with what was done so far in words. `moved_on`: the program was saved since."""

    base_version: int
    step: int
    document: dict[str, Any]
    summaries: tuple[str, ...]
    undo: bool
    redo: bool
    moved_on: bool


def trial_of(program: Program, user: User) -> Trial | None:
    """Return what `user` tries in the program (one query; two while something is tried)."""
    steps = list(TrialStep.objects.filter(program=program, user=user).defer("document"))
    if not steps:
        return None
    done = [one for one in steps if not one.undone]
    now = TrialStep.objects.values_list("document", flat=True).get(pk=done[-1].pk)
    return Trial(
        base_version=steps[0].base_version,
        step=done[-1].number,
        document=now,
        summaries=tuple(one.summary for one in done[1:]),
        undo=len(done) > 1,
        redo=len(done) < len(steps),
        moved_on=steps[0].base_version != program.version,
    )


@transaction.atomic
def trial_begin(*, program: Program, user: User, base_version: int) -> Trial:
    """Begin to try; what is being tried already goes on. StaleVersion as in `program_edit`."""
    program = locked(program, base_version)
    TrialStep.objects.get_or_create(
        program=program,
        user=user,
        number=0,
        defaults={"base_version": program.version, "document": program.document},
    )
    return _now(program, user)


@transaction.atomic
def trial_edit(*, program: Program, user: User, step: int, operation: Operation) -> Trial:
    """Make one change in the scratch copy; undo and redo walk its steps. EditError when it cannot be made, or when the
    trial does not stand at `step` any more."""
    Program.objects.select_for_update().get(pk=program.pk)
    trial = _at(program, user, step)
    steps = TrialStep.objects.filter(program=program, user=user)
    if operation.name == "undo":
        if not trial.undo:
            raise EditError(_("There is nothing to undo."))
        steps.filter(number=step).update(undone=True)
        return _now(program, user)
    if operation.name == "redo":
        if not trial.redo:
            raise EditError(_("There is nothing to redo."))
        steps.filter(number=step + 1).update(undone=False)
        return _now(program, user)
    if operation.name == "return":
        raise EditError(_("Keep or drop what you try before you return to an earlier version."))
    operation = with_exercise(operation, user)
    before = document_from_json(trial.document)
    after = changed_document(before, operation)
    if after == before:
        return trial
    if step >= MOST_STEPS:
        raise EditError(_("This trial is long. Keep it or drop it before you change more."))
    steps.filter(undone=True).delete()
    summary = summarise(operation, before, after, exercise_names(before, operation))
    TrialStep.objects.create(
        program=program,
        user=user,
        base_version=trial.base_version,
        number=step + 1,
        document=document_to_json(after),
        summary=summary[:200],
    )
    return _now(program, user)


@transaction.atomic
def trial_keep(
    *, program: Program, user: User, step: int, base_version: int, over: bool = False
) -> ProgramRevision | None:
    """Save what was tried as one revision and end the trial; None when nothing differs.

    StaleVersion when the program was saved since the trial began, unless `over` says to put it over that version: the
    history still holds the other one.
    """
    program = locked(program, base_version)
    trial = _at(program, user, step)
    if trial.moved_on and not over:
        raise StaleVersion(program, trial.base_version)
    revision = None
    if trial.document != program.document:
        words = "; ".join(trial.summaries) or _("changes")
        revision = save_version(program, user, trial.document, _("Kept what was tried: %(what)s") % {"what": words})
    trial_drop(program=program, user=user)
    return revision


@transaction.atomic
def trial_drop(*, program: Program, user: User) -> None:
    """End the trial. The program and its history are as if it had not been."""
    TrialStep.objects.filter(program=program, user=user).delete()


def _now(program: Program, user: User) -> Trial:
    trial = trial_of(program, user)
    if trial is None:
        raise EditError(_("What you tried was kept or dropped in another window. Reload the page."))
    return trial


def _at(program: Program, user: User, step: int) -> Trial:
    trial = _now(program, user)
    if trial.step != step:
        raise EditError(_("What you try was changed in another window. Reload the page."))
    return trial
