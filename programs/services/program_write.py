"""Write programs. Every saved change is a revision; a change names the version that its writer was looking at."""

from dataclasses import dataclass
from typing import Any

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from accounts.models import Practice, User
from programs.document import Document, document_from_json, document_to_json
from programs.document.edits import Operation, apply_operation
from programs.document.errors import EditError
from programs.document.find import slots_of
from programs.document.keys import random_key
from programs.document.model import Block, Day, Week
from programs.document.summary import summarise
from programs.models import Exercise, Program, ProgramRevision
from programs.services.leads import leading_groups


class StaleVersion(Exception):
    """Someone saved in between. `since` holds the revisions the writer has not seen, oldest first."""

    def __init__(self, program: Program, base_version: int) -> None:
        super().__init__(f"program {program.pk} is at version {program.version}, not {base_version}")
        self.program = program
        self.since = list(
            program.revisions.filter(version__gt=base_version)
            .select_related("author")
            .defer("document")
            .order_by("version")
        )


def empty_document(days: int = 0) -> Document:
    """Return one block of one week with `days` empty training days."""
    names = [_("Day %(number)s") % {"number": number} for number in range(1, days + 1)]
    week = Week(random_key(), days=tuple(Day(random_key(), name) for name in names))
    return Document((Block(random_key(), _("Block %(number)s") % {"number": 1}, (week,)),))


@transaction.atomic
def program_create(
    *,
    practice: Practice,
    author: User,
    name: str,
    note: str = "",
    document: dict[str, Any] | None = None,
    days: int = 2,
    written_for: str = "intermediate",
    weekdays: list[int] | None = None,
    **around: Any,
) -> Program:
    """Make a program from a document (checked; DocumentError), or an empty one of `days` training days a week.

    `around` is what else stands around the content: session_minutes, asked_ranges, judge_by_asked.
    """
    content = document_from_json(document) if document is not None else empty_document(days)
    program = Program.objects.create(
        practice=practice,
        author=author,
        name=name,
        note=note,
        document=document_to_json(content),
        version=1,
        written_for=written_for,
        weekdays=weekdays or [],
        **around,
    )
    _write_revision(program, author, _("Made the program"))
    return program


@dataclass(frozen=True, slots=True)
class Edited:
    """A saved change with the document before and after it, which need not be read again."""

    revision: ProgramRevision
    before: Document
    after: Document


def program_edit(*, program: Program, user: User, base_version: int, operation: Operation) -> ProgramRevision:
    """Apply one operation and save it as the next version; see `program_edited`."""
    return program_edited(program=program, user=user, base_version=base_version, operation=operation).revision


@transaction.atomic
def program_edited(*, program: Program, user: User, base_version: int, operation: Operation) -> Edited:
    """Apply one operation and save it as the next version.

    Raises StaleVersion when `base_version` is no longer the latest, EditError when the change cannot be made (also for
    an exercise that `user` does not see, or that is archived). Does not check that `user` may write the program.
    """
    program = locked(program, base_version)
    operation = with_exercise(operation, user)
    before = document_from_json(program.document)
    after = changed_document(before, operation)
    if after == before:
        return Edited(program.revisions.get(version=program.version), before, before)
    summary = summarise(operation, before, after, exercise_names(before, operation))
    return Edited(save_version(program, user, document_to_json(after), summary), before, after)


def changed_document(before: Document, operation: Operation) -> Document:
    """Apply an operation, knowing which muscle group's ramp each exercise follows (one query where a ramp is)."""
    if operation.name != "ramp" and not any(block.ramp for block in before.blocks):
        return apply_operation(before, operation)
    ids = {slot.exercise for slot in slots_of(before)}
    return apply_operation(before, operation, leads=leading_groups({*ids, operation.params.get("exercise", 0)}))


@transaction.atomic
def program_copy(*, program: Program, author: User, revision: ProgramRevision | None = None) -> Program:
    """Make the writer's own copy of a program, or of an earlier version of it, with a history of its own."""
    words = _("%(name)s (copy)") if revision is None else _("%(name)s (copy of version %(version)s)")
    return program_create(
        practice=program.practice,
        author=author,
        name=(words % {"name": program.name, "version": revision.version if revision else ""})[:120],
        note=program.note,
        document=revision.document if revision else program.document,
        written_for=program.written_for,
        weekdays=program.weekdays,
        session_minutes=program.session_minutes,
        asked_ranges=program.asked_ranges,
        judge_by_asked=program.judge_by_asked,
    )


@transaction.atomic
def program_describe(*, program: Program, **fields: Any) -> Program:
    """Change what stands around the content: name, for whom, by what it is judged. The content's version stays."""
    for field, value in fields.items():
        setattr(program, field, value)
    program.save(update_fields=[*fields, "updated_at"])
    return program


@transaction.atomic
def program_archive(*, program: Program, archived: bool) -> Program:
    """Put a program away, or take it out again. What was assigned from it goes on."""
    program.archived_at = timezone.now() if archived else None
    program.save(update_fields=["archived_at", "updated_at"])
    return program


def locked(program: Program, base_version: int) -> Program:
    """Return the program as it is now, locked until the transaction ends; StaleVersion when it has moved on."""
    fresh = Program.objects.select_for_update().get(pk=program.pk)
    if fresh.version != base_version:
        raise StaleVersion(fresh, base_version)
    return fresh


def save_version(
    program: Program, user: User, document: dict[str, Any], summary: str, restores: int | None = None
) -> ProgramRevision:
    program.document = document
    program.version += 1
    program.save(update_fields=["document", "version", "updated_at"])
    return _write_revision(program, user, summary, restores)


def _write_revision(program: Program, user: User, summary: str, restores: int | None = None) -> ProgramRevision:
    return ProgramRevision.objects.create(
        program=program,
        version=program.version,
        document=program.document,
        summary=summary[:200],
        author=user,
        restores=restores,
    )


def with_exercise(operation: Operation, user: User) -> Operation:
    """Check the exercise that the operation brings in, and take its usual rest."""
    if "exercise" not in operation.params:
        return operation
    exercise = Exercise.objects.visible_to(user).filter(pk=operation.params["exercise"], archived_at=None).first()
    if exercise is None:
        raise EditError(_("Choose an exercise from the list."), "exercise")
    if operation.name != "add-slot":
        return operation
    return Operation(operation.name, {"rest_s": exercise.rest_s, **operation.params})


def exercise_names(document: Document, operation: Operation) -> dict[int, str]:
    ids = {slot.exercise for slot in slots_of(document)}
    if "exercise" in operation.params:
        ids.add(operation.params["exercise"])
    return dict(Exercise.objects.filter(pk__in=ids).values_list("pk", "name"))
