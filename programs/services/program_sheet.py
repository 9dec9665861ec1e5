"""A program from a table and as a table. Nothing is saved until every cell is right."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from accounts.models import Practice, User
from programs.document import Document, document_from_json, document_to_json
from programs.exchange.csv_read import csv_rows, decoded
from programs.exchange.errors import FileError
from programs.exchange.json_write import exercise_ids
from programs.exchange.sheet_build import build_document
from programs.exchange.sheet_rows import Problem, read_lines
from programs.exchange.sheet_write import sheet_rows, template_rows, write_csv, write_xlsx
from programs.exchange.table import Table, table_of
from programs.exchange.xlsx_read import xlsx_rows
from programs.models import Exercise, Program
from programs.services.program_import import Counted, Unknown, catalogue_of, counted
from programs.services.program_write import program_create

WRITERS = {"csv": write_csv, "xlsx": write_xlsx}
# More than these are counted and not listed: nobody mends a thousand cells on a page.
MOST_SHOWN = 100
MOST_UNKNOWN = 40


@dataclass(slots=True)
class SheetPlan:
    """What a table would become. `document` is there only when nothing is wrong."""

    table: Table
    problems: list[Problem] = field(default_factory=list)
    wrong: int = 0
    unknown: list[Unknown] = field(default_factory=list)
    unknown_more: int = 0
    headings_wrong: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    document: Document | None = None
    counted: Counted | None = None

    @property
    def is_right(self) -> bool:
        return self.document is not None

    @property
    def dates(self) -> list[Problem]:
        """The cells that a spreadsheet made dates of, and that can be taken back together."""
        return [one for one in self.problems if one.suggestion]


def read_table(data: bytes) -> Table:
    """Return the table of an uploaded CSV or XLSX; FileError when it is neither, or too large."""
    if data.startswith(b"PK"):
        return table_of(xlsx_rows(data))
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise FileError(_("This is an old or a protected workbook. Save it as XLSX without a password, or as CSV."))
    return table_of(csv_rows(decoded(data)))


def sheet_plan(table: Table, practice: Practice) -> SheetPlan:
    """Say what the table would become (one query)."""
    catalogue = catalogue_of(practice)
    found = read_lines(table, catalogue)
    plan = SheetPlan(table, headings_wrong=found.headings_wrong)
    if found.left_out:
        plan.notes.append(_("Not known, and left out: %(names)s.") % {"names": ", ".join(found.left_out)})
    if not (found.headings_wrong or found.problems or found.missing):
        document = build_document(found)
        if not found.problems:
            plan.document, plan.counted = document, counted(document)
    found.problems.sort(key=lambda one: (one.index, one.place))
    plan.problems = [_with_exercise(one, table, found.places) for one in found.problems[:MOST_SHOWN]]
    plan.wrong = len(found.problems)
    names = sorted(found.missing, key=lambda name: found.missing[name][0])
    plan.unknown = [
        Unknown(name, name, catalogue.near(name), _rows(found.missing[name])) for name in names[:MOST_UNKNOWN]
    ]
    plan.unknown_more = len(names) - len(plan.unknown)
    return plan


def mend(table: Table, cells: Mapping[tuple[int, int], str], names: Mapping[str, str], column: int | None) -> None:
    """Put what was typed on the preview into the table: cells by (index, place), and exercises by the name as written
    (all rows that have it in `column`)."""
    for (index, place), text in cells.items():
        if 0 <= index < len(table.rows) and 0 <= place < len(table.headings):
            row = table.rows[index][1]
            row.extend([""] * (place + 1 - len(row)))
            row[place] = text
    if column is None or not names:
        return
    for _number, row in table.rows:
        if column < len(row) and (new := names.get(" ".join(row[column].split()))):
            row[column] = new


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
    return WRITERS[kind](sheet_rows(document, names))


def template_sheet(practice: Practice, kind: str) -> bytes:
    """Return the table to start from, with exercises that this practice has (one query)."""
    rows = Exercise.objects.filter(practice=None, archived_at=None) | Exercise.objects.filter(
        practice=practice, archived_at=None
    )
    names = list(rows.order_by("name").values_list("name", flat=True)[:3])
    names += [_("Exercise %(number)s") % {"number": number} for number in range(len(names) + 1, 4)]
    return WRITERS[kind](template_rows(names))


def _with_exercise(problem: Problem, table: Table, places: Mapping[str, int]) -> Problem:
    cells, place = table.rows[problem.index][1], places["exercise"]
    return replace(problem, exercise=cells[place][:60] if place < len(cells) and place != problem.place else "")


def _rows(numbers: list[int]) -> str:
    shown = ", ".join(map(str, numbers[:8]))
    more = len(numbers) - 8
    if more > 0:
        shown += " " + ngettext("and %(count)d more", "and %(count)d more", more) % {"count": more}
    return shown
