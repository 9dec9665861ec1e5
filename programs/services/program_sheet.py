"""A program from a table and as a table. Nothing is saved until every cell is right."""

from dataclasses import dataclass

from django.db import transaction
from django.utils.translation import gettext as _

from accounts.models import Practice, User
from programs.document import Document, document_from_json, document_to_json
from programs.exchange.columns import PROGRAM
from programs.exchange.json_write import exercise_ids
from programs.exchange.sheet_build import build_document
from programs.exchange.sheet_rows import read_lines
from programs.exchange.sheet_write import sheet_rows, template_rows
from programs.models import Exercise, Program
from programs.services.program_import import Counted, catalogue_of, counted
from programs.services.program_write import program_create
from programs.sheets.errors import FileError
from programs.sheets.plan import TablePlan
from programs.sheets.table import Table
from programs.sheets.write import WRITERS


@dataclass(slots=True)
class SheetPlan(TablePlan):
    """What a table would become. `document` is there only when nothing is wrong."""

    document: Document | None = None
    counted: Counted | None = None

    @property
    def is_right(self) -> bool:
        return self.document is not None


def sheet_plan(table: Table, practice: Practice) -> SheetPlan:
    """Say what the table would become (one query)."""
    catalogue = catalogue_of(practice)
    found = read_lines(table, catalogue)
    plan = SheetPlan(table)
    if not (found.headings_wrong or found.problems or found.missing):
        document = build_document(found)
        if not found.problems:
            plan.document, plan.counted = document, counted(document)
    plan.take(found, catalogue)
    return plan


@transaction.atomic
def sheet_import(*, plan: SheetPlan, practice: Practice, author: User, name: str) -> Program:
    """Save the program of a plan that is right."""
    if plan.document is None:
        raise FileError(_("Not everything is right yet."))
    return program_create(practice=practice, author=author, name=name, document=document_to_json(plan.document))


def program_sheet(program: Program, kind: str) -> bytes:
    """Return a program as a "csv" or "xlsx" table (one query)."""
    document = document_from_json(program.document)
    ids = exercise_ids(document_to_json(document))
    names = dict(Exercise.objects.filter(pk__in=ids).values_list("pk", "name"))
    return WRITERS[kind](PROGRAM, sheet_rows(document, names))


def template_sheet(practice: Practice, kind: str) -> bytes:
    """Return the table to start from, with exercises that this practice has (one query)."""
    rows = Exercise.objects.filter(practice=None, archived_at=None) | Exercise.objects.filter(
        practice=practice, archived_at=None
    )
    names = list(rows.order_by("name").values_list("name", flat=True)[:3])
    names += [_("Exercise %(number)s") % {"number": number} for number in range(len(names) + 1, 4)]
    return WRITERS[kind](PROGRAM, template_rows(names))
