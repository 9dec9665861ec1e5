"""Text that a spreadsheet wrote: whatever its encoding, and whatever stands between its cells."""

import codecs
import csv
import io
from collections.abc import Iterator, Sequence

from programs.sheets.errors import FileError
from programs.sheets.layout import Layout, layout_of
from programs.sheets.table import MOST_CELL, MOST_COLUMNS, TITLE_ROWS

BETWEEN = (",", ";", "\t", "|")
BYTE_ORDER = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))


def decoded(data: bytes) -> str:
    """Return the text of a file: UTF-8, UTF-16 (with or without its mark), else Windows-1252, which fits Western text.

    FileError for what is no text.
    """
    for mark, name in BYTE_ORDER:
        if data.startswith(mark):
            return _decode(data, name)
    if b"\x00" in data[:4000]:
        # Latin letters in UTF-16 are every second byte; elsewhere a text has no zero byte.
        even, odd = data[:4000:2].count(0), data[1:4000:2].count(0)
        return _decode(data, "utf-16-be" if even > odd else "utf-16-le")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return _decode(data, "cp1252")


def _decode(data: bytes, name: str) -> str:
    try:
        text = data.decode(name)
    except UnicodeDecodeError:
        text = "\x00"
    if "\x00" in text:
        raise FileError("not_text")
    return text


def csv_rows(text: str, layouts: Sequence[Layout]) -> Iterator[tuple[int, list[str]]]:
    """Yield the rows with the number of their first line; FileError for a quote that never ends."""
    between = _between(text, layouts)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=between)
    before = 0
    try:
        for cells in reader:
            yield before + 1, [cell[:MOST_CELL] for cell in cells[:MOST_COLUMNS]]
            before = reader.line_num
    except csv.Error as error:
        raise FileError("csv_line", line=before + 1) from error


def _between(text: str, layouts: Sequence[Layout]) -> str:
    """Return what stands between the cells: that with which one of the first rows is the heading row."""
    lines = text[:20_000].splitlines()[:TITLE_ROWS]
    if lines and lines[0].lower().startswith("sep=") and len(lines[0]) == 5:
        return lines[0][4]
    for one in BETWEEN:
        if any(layout_of(next(csv.reader([line], delimiter=one), []), layouts) for line in lines if line.strip()):
            return one
    return max(BETWEEN, key=lambda one: sum(line.count(one) for line in lines))
