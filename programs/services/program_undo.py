"""Undo, redo, and return to an earlier version: each brings an earlier document back as a new revision."""

from dataclasses import dataclass

from django.db import transaction
from django.utils.translation import gettext as _

from accounts.models import User
from programs.document import EditError
from programs.models import Program, ProgramRevision
from programs.services.program_write import locked, save_version


@dataclass(frozen=True, slots=True)
class Steps:
    """The version that undo would bring back, and the one that redo would; None when there is none."""

    undo: int | None
    redo: int | None


def steps(program: Program) -> Steps:
    """Work out what undo and redo would do now, from the latest revisions.

    A revision that restores version r stands at r. Undo goes from where one stands to what was before it; redo goes
    back up through what the latest undos left, until a new change is made.
    """
    trail: list[int] = []
    at = program.version
    rows = program.revisions.order_by("-version").values_list("version", "restores")
    for version, restores in rows.iterator():
        at = version
        if restores is None:
            break
        trail.append(restores)
    redo: list[int] = []
    for restored in reversed(trail):
        if redo and redo[-1] == restored:
            redo.pop()
        else:
            redo.append(at)
        at = restored
    before = program.revisions.filter(version=at - 1).values_list("version", "restores").first()
    return Steps((before[1] or before[0]) if before else None, redo[-1] if redo else None)


@transaction.atomic
def program_undo(*, program: Program, user: User, base_version: int) -> ProgramRevision:
    """Take the latest change back. EditError when there is none; StaleVersion as in `program_edit`."""
    program = locked(program, base_version)
    target = steps(program).undo
    if target is None:
        raise EditError(_("There is nothing to undo."))
    return _bring_back(program, user, target, _("Undid: %(change)s"), at_summary=True)


@transaction.atomic
def program_redo(*, program: Program, user: User, base_version: int) -> ProgramRevision:
    """Make the change again that the latest undo took back."""
    program = locked(program, base_version)
    target = steps(program).redo
    if target is None:
        raise EditError(_("There is nothing to redo."))
    return _bring_back(program, user, target, _("Redid: %(change)s"), at_summary=False)


@transaction.atomic
def program_return(*, program: Program, user: User, base_version: int, version: int) -> ProgramRevision:
    """Write the document of an earlier version as a new change. EditError when there is no such version."""
    program = locked(program, base_version)
    revision = program.revisions.filter(version=version, version__lt=program.version).first()
    if revision is None:
        raise EditError(_("There is no such earlier version."))
    # A change like any other: undo takes it back.
    return save_version(program, user, revision.document, _("Returned to version %(version)s") % {"version": version})


def _bring_back(program: Program, user: User, target: int, words: str, *, at_summary: bool) -> ProgramRevision:
    """Save the document of `target` anew; say the change that is taken back (where one stands) or made again."""
    now = program.revisions.get(version=program.version)
    told = now if at_summary else program.revisions.get(version=target)
    if at_summary and now.restores is not None:
        told = program.revisions.get(version=now.restores)
    document = program.revisions.get(version=target).document
    return save_version(program, user, document, words % {"change": told.summary}, target)
