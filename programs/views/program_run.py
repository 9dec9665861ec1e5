"""Run one change of a program: on the program itself, or on what its writer tries."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from accounts.models import User
from programs.document import Document, document_from_json
from programs.document.edits import Operation
from programs.document.errors import EditError
from programs.models import Program, ProgramRevision
from programs.services.program_undo import program_redo, program_return, program_undo
from programs.services.program_write import program_edited
from programs.services.trial import Trial, trial_begin, trial_drop, trial_edit, trial_keep, trial_of


@dataclass(frozen=True, slots=True)
class Outcome:
    """The document shown before and after the change, the latter also as it is stored, and the change in words."""

    before: Document
    after: Document
    stored: dict[str, Any]
    summary: str
    version: int
    trying: bool


def run(program: Program, user: User, operation: Operation, post: Mapping[str, str]) -> Outcome:
    """Make the change. A form that was shown while something was tried says at which step, under `trial`."""
    if program.archived_at:
        raise EditError(_("This program is put away. Take it out of the archive to change it."))
    base_version = _number(post, "base_version")
    known = {"program": program, "user": user}
    if operation.name == "try":
        return _tried(program, program.document, trial_begin(**known, base_version=base_version))
    if post.get("trial"):
        return _on_trial(program, user, operation, _number(post, "trial"), base_version)
    if operation.name in {"keep", "drop"}:
        raise EditError(_("Nothing is being tried (any more). Reload the page."))
    return _revise(program, user, operation, base_version)


def _revise(program: Program, user: User, operation: Operation, base_version: int) -> Outcome:
    known = {"program": program, "user": user, "base_version": base_version}
    match operation.name:
        case "undo":
            return _kept(program, program_undo(**known))
        case "redo":
            return _kept(program, program_redo(**known))
        case "return":
            return _kept(program, program_return(**known, version=operation.params.get("version", 0)))
    edited = program_edited(**known, operation=operation)
    revision = edited.revision
    return Outcome(edited.before, edited.after, revision.document, revision.summary, revision.version, False)


def _on_trial(program: Program, user: User, operation: Operation, step: int, base_version: int) -> Outcome:
    known = {"program": program, "user": user}
    match operation.name:
        case "drop":
            before = trial_of(program, user)
            trial_drop(**known)
            shown = before.document if before else program.document
            return _outcome(shown, program.document, _("Dropped what was tried"), program.version)
        case "keep":
            over = operation.params.get("over") == "yes"
            revision = trial_keep(**known, step=step, base_version=base_version, over=over)
            if revision is None:
                words = _("Nothing was different")
                return _outcome(program.document, program.document, words, program.version)
            return _kept(program, revision)
    before = trial_of(program, user)
    after = trial_edit(**known, step=step, operation=operation)
    return _tried(program, before.document if before else program.document, after)


def _kept(program: Program, revision: ProgramRevision) -> Outcome:
    return _outcome(program.document, revision.document, revision.summary, revision.version)


def _tried(program: Program, before: dict[str, Any], trial: Trial) -> Outcome:
    summary = trial.summaries[-1] if trial.summaries else ""
    return _outcome(before, trial.document, summary, program.version, trying=True)


def _outcome(
    before: dict[str, Any], after: dict[str, Any], summary: str, version: int, *, trying: bool = False
) -> Outcome:
    return Outcome(document_from_json(before), document_from_json(after), after, summary, version, trying)


def _number(post: Mapping[str, str], name: str) -> int:
    try:
        return int(post.get(name, ""))
    except ValueError as error:
        raise EditError(_("That change is incomplete. Reload the page and try again.")) from error
