"""A table as a file that is safe to open in a spreadsheet."""

import csv
import io
from collections.abc import Callable, Iterable, Mapping

from programs.sheets.layout import Layout
from programs.sheets.neutral import escaped


def write_csv(layout: Layout, rows: Iterable[list[str]]) -> bytes:
    """Return CSV in UTF-8 with a mark by which spreadsheets know it."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(layout.headings)
    writer.writerows([escaped(cell) for cell in row] for row in rows)
    return text.getvalue().encode("utf-8-sig")


def write_xlsx(layout: Layout, rows: Iterable[list[str]]) -> bytes:
    """Return a workbook of one sheet whose cells are all text, so that no range becomes a date."""
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    book = Workbook(write_only=True)
    sheet = book.create_sheet(layout.key.capitalize())
    sheet.freeze_panes = "A2"
    for place, column in enumerate(layout.columns, 1):
        sheet.column_dimensions[get_column_letter(place)].width = layout.widths.get(column.key, 11)
        sheet.column_dimensions[get_column_letter(place)].number_format = "@"

    def cell(text: str, bold: bool = False) -> WriteOnlyCell:
        made = WriteOnlyCell(sheet, value=escaped(text))
        made.data_type, made.number_format = "s", "@"
        if bold:
            made.font = Font(bold=True)
        return made

    sheet.append([cell(text, bold=True) for text in layout.headings])
    for row in rows:
        sheet.append([cell(text) for text in row])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def printable(text: str) -> str:
    """Leave out what no cell can hold."""
    return "".join(char for char in text if (ord(char) >= 32 and ord(char) not in (0xFFFE, 0xFFFF)) or char in "\n\t")


WRITERS: Mapping[str, Callable[[Layout, Iterable[list[str]]], bytes]] = {"csv": write_csv, "xlsx": write_xlsx}
TYPES = {
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}
