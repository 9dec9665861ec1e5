"""A program as a table: one row an exercise and week, safe to open in a spreadsheet."""

import csv
import io
from collections.abc import Iterator, Mapping, Sequence

from django.utils.translation import gettext as _

from programs.document import Document, labels
from programs.document.model import Day, Slot
from programs.document.ranges import show_range
from programs.exchange.columns import COLUMNS
from programs.exchange.neutral import escaped

WIDTHS: Mapping[str, int] = {"block": 18, "week_note": 24, "day": 18, "exercise": 42, "note": 40}


def sheet_rows(document: Document, names: Mapping[int, str]) -> Iterator[list[str]]:
    """Yield the rows below the headings. Parts that have no name, or another's, get one, for a table tells them apart
    by name; a day without exercises gets a row that only names it."""
    for block, block_name in _named(document.blocks, _("Block %(number)s")):
        for number, week in enumerate(block.weeks, 1):
            opens = [block_name, str(number), "yes" if week.deload else "", _printable(week.note)]
            if not week.days:
                yield [*opens, *[""] * (len(COLUMNS) - len(opens))]
            for day, day_name in _named(week.days, _("Day %(number)s")):
                yield from _day_rows(day, [*opens, day_name], names)


def _day_rows(day: Day, opens: list[str], names: Mapping[int, str]) -> Iterator[list[str]]:
    if not day.slots:
        yield [*opens, *[""] * (len(COLUMNS) - len(opens))]
    for slot, label in zip(day.slots, labels(day.slots), strict=True):
        yield [*opens, *_slot_cells(slot, label, names)]


def _slot_cells(slot: Slot, label: str, names: Mapping[int, str]) -> list[str]:
    # The long dash keeps a spreadsheet from making a date out of a range.
    ranges = [show_range(one) for one in (slot.sets, slot.reps, slot.rir)]
    return [
        label[:1],
        names.get(slot.exercise, ""),
        *ranges,
        str(slot.rest_s),
        *map(_printable, (slot.tempo, slot.note)),
    ]


def _named(parts: Sequence, pattern: str) -> list[tuple]:
    result, taken = [], set()
    for number, part in enumerate(parts, 1):
        name = first = " ".join(_printable(part.name).split()) or pattern % {"number": number}
        again = 2
        while name in taken:
            name = f"{first[:70]} ({again})"
            again += 1
        taken.add(name)
        result.append((part, name))
    return result


def headings() -> list[str]:
    return [column.heading for column in COLUMNS]


def write_csv(rows: Iterator[list[str]] | list[list[str]]) -> bytes:
    """Return CSV in UTF-8 with a mark by which spreadsheets know it."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(headings())
    writer.writerows([escaped(cell) for cell in row] for row in rows)
    return text.getvalue().encode("utf-8-sig")


def write_xlsx(rows: Iterator[list[str]] | list[list[str]]) -> bytes:
    """Return a workbook of one sheet whose cells are all text, so that no range becomes a date."""
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    book = Workbook(write_only=True)
    sheet = book.create_sheet("Program")
    sheet.freeze_panes = "A2"
    for place, column in enumerate(COLUMNS, 1):
        sheet.column_dimensions[get_column_letter(place)].width = WIDTHS.get(column.key, 11)
        sheet.column_dimensions[get_column_letter(place)].number_format = "@"

    def cell(text: str, bold: bool = False) -> WriteOnlyCell:
        made = WriteOnlyCell(sheet, value=escaped(text))
        made.data_type, made.number_format = "s", "@"
        if bold:
            made.font = Font(bold=True)
        return made

    sheet.append([cell(text, bold=True) for text in headings()])
    for row in rows:
        sheet.append([cell(text) for text in row])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _printable(text: str) -> str:
    """Leave out what no cell can hold."""
    return "".join(char for char in text if (ord(char) >= 32 and ord(char) not in (0xFFFE, 0xFFFF)) or char in "\n\t")


def template_rows(names: Sequence[str]) -> list[list[str]]:
    """Return the rows of the file to start from: a week with a pair, a range of weeks, a heading row, a deload."""
    first, second, third = names
    return [
        ["Block 1", "1–3", "", "", "Day 1", "", first, "3", "8–12", "1–2", "2 min", "", "One row is one exercise."],
        ["", "", "", "", "", "A", second, "3–4", "10–15", "1–2", "90", "", ""],
        ["", "", "", "", "", "A", third, "3–4", "10–15", "1–2", "90", "3-1-1", ""],
        ["", "", "", "", "Day 2", "", second, "3", "8–12", "1–2", "", "", "Empty: as in the row above."],
        ["", "4", "yes", "Lighter", "Day 1", "", first, "2", "8–12", "3–4", "2 min", "", ""],
        ["", "", "", "", "Day 2", "", second, "2", "8–12", "3–4", "", "", ""],
    ]
