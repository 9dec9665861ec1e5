"""A table as it was read: rows of text, numbered as in the spreadsheet. Travels through the preview as JSON."""

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from programs.sheets.errors import FileError
from programs.sheets.layout import Layout, layout_of

MOST_COLUMNS = 40
MOST_CELL = 2000
TITLE_ROWS = 20


@dataclass(slots=True)
class Table:
    """`rows` are (number in the file, cells); empty rows are left out."""

    layout: Layout
    headings: list[str]
    rows: list[tuple[int, list[str]]]

    def dump(self) -> str:
        return json.dumps([self.headings, self.rows], ensure_ascii=False)


def table_of(rows: Iterable[tuple[int, list[str]]], layouts: Sequence[Layout]) -> Table:
    """Return the table from its heading row on; FileError when there is none, or when it is too large.

    Reads no further than one row too many, so that a huge file is refused as fast as a large one is read.
    """
    layout: Layout | None = None
    headings: list[str] = []
    kept: list[tuple[int, list[str]]] = []
    text = 0
    for number, cells in rows:
        if not any(cell.strip() for cell in cells):
            continue
        if layout is None:
            if layout := layout_of(cells, layouts):
                headings = _trimmed(cells)[:MOST_COLUMNS]
            elif number > TITLE_ROWS:
                break
            continue
        kept.append((number, [cell[:MOST_CELL] for cell in cells[: len(headings)]]))
        text += len(json.dumps(kept[-1], ensure_ascii=False).encode(errors="replace")) + 2
        if len(kept) > layout.most_rows or text > layout.most_text:
            raise FileError(layout.too_large, rows=f"{layout.most_rows:,}")
    if layout is None:
        names = layouts[0].example
        raise FileError("no_headings", names=names)
    if not kept:
        raise FileError("no_rows")
    return Table(layout, headings, kept)


def _trimmed(cells: list[str]) -> list[str]:
    """Return the cells without the empty ones at their end."""
    last = max((place for place, cell in enumerate(cells) if cell.strip()), default=-1)
    return cells[: last + 1]


def load_table(text: str, layout: Layout) -> Table:
    """Return the table that `dump` wrote; FileError when someone else wrote it."""
    try:
        headings, rows = json.loads(text)
        table = Table(
            layout, [_text(one) for one in headings], [(_number(n), [_text(one) for one in cells]) for n, cells in rows]
        )
    except (ValueError, TypeError, RecursionError) as error:
        raise FileError("preview_damaged") from error
    if len(table.rows) > layout.most_rows or len(table.headings) > MOST_COLUMNS or not table.rows:
        raise FileError("preview_damaged")
    return table


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError
    return value[:MOST_CELL]


def _number(value: Any) -> int:
    if not isinstance(value, int) or isinstance(value, bool):
        raise TypeError
    return value
