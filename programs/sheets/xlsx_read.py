"""A workbook's first sheet that has our headings, as text. Nothing in it is run, followed or unpacked without limit."""

import datetime as dt
import io
import warnings
import zipfile
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from programs.sheets.errors import FileError, Stopped
from programs.sheets.layout import Layout, layout_of
from programs.sheets.neutral import escaped
from programs.sheets.table import MOST_CELL, MOST_COLUMNS, TITLE_ROWS

MOST_PARTS = 500
MOST_UNPACKED = 40_000_000
MOST_SHEETS = 30
TELL_EVERY = 500


def xlsx_rows(
    data: bytes, layouts: Sequence[Layout], told: Callable[[int], None] = lambda rows: None
) -> Iterator[tuple[int, list[str]]]:
    """Return the rows of the sheet; FileError for a file that is none of ours, damaged, or too large unpacked. `told`
    hears now and then how many rows are unpacked, and may raise Stopped."""
    _refuse_bombs(data)
    import openpyxl

    # Without it, XML in the file could name other files, or swell: better no workbook than that.
    if not openpyxl.DEFUSEDXML:
        raise FileError("no_safe_reader")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of styles and validations that we do not read
            book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=False, keep_links=False)
            sheets = book.worksheets[:MOST_SHEETS]
            for sheet in sheets:
                rows = list(_rows(sheet, TITLE_ROWS))
                if any(layout_of(cells, layouts) for _number, cells in rows):
                    most = max(layout.most_rows for layout in layouts)
                    return iter(list(_rows(sheet, most + TITLE_ROWS + 1, told)))
    except (FileError, Stopped):
        raise
    except Exception as error:  # openpyxl raises whatever a damaged part leads it to
        raise FileError("workbook_damaged_or_protected") from error
    return iter([])


def _rows(sheet: Any, most: int, told: Callable[[int], None] = lambda rows: None) -> Iterator[tuple[int, list[str]]]:
    if hasattr(sheet, "reset_dimensions"):
        sheet.reset_dimensions()  # a sheet may claim to reach to the last column there is
    found = 0
    # Empty rows between do not count: a sheet may have its last row far below.
    for number, cells in enumerate(sheet.iter_rows(max_col=MOST_COLUMNS, max_row=most * 4), 1):
        texts = [_text(cell) for cell in cells]
        if any(texts):
            found += 1
            if found % TELL_EVERY == 0:
                told(found)
            yield number, texts
        if found >= most:
            return


def _text(cell: Any) -> str:
    """Write a cell's value as it would be typed; a formula keeps its sign, text that only looks like one is escaped."""
    value = cell.value
    if value is None:
        return ""
    if cell.data_type == "f":
        return str(value)[:MOST_CELL] if str(value).startswith("=") else "=…"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dt.datetime | dt.date):
        # "mmm-yy": the spreadsheet took the second number for a year, and made up the day.
        form = "" if "d" in str(cell.number_format).lower() else "%Y-%m"
        return value.strftime(form or "%Y-%m-%d")
    if isinstance(value, dt.time):
        return value.strftime("%H:%M:%S")
    if isinstance(value, dt.timedelta):
        seconds = int(value.total_seconds())
        return f"{seconds // 3600:02}:{seconds // 60 % 60:02}:{seconds % 60:02}"
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() else repr(round(value, 6))
    text = str(value)
    if "\x00" in text:
        text = text.replace("\x00", "")
    return escaped(text)[:MOST_CELL] if text.lstrip().startswith("=") else text[:MOST_CELL]


def _refuse_bombs(data: bytes) -> None:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            parts = archive.infolist()
    except (zipfile.BadZipFile, ValueError, NotImplementedError, OSError) as error:
        raise FileError("workbook_damaged") from error
    names = {part.filename for part in parts}
    if "xl/workbook.xml" not in names:
        raise FileError("no_workbook")
    if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > MOST_UNPACKED:
        raise FileError("unpacked_too_large")
