"""What was typed on the preview of an import."""

import re
from collections.abc import Callable, Mapping

from programs.sheets.table import MOST_CELL, Table

_CELL = re.compile(r"^cell-(\d{1,5})-(\d{1,2})\Z")
_KEY = re.compile(r"^key-(\d{1,3})\Z")


def typed_cells(
    values: Mapping[str, str], change: Callable[[str], str] = lambda text: text
) -> dict[tuple[int, int], str]:
    """Return the cells by (index, place); `change` may put another text in the place of what was sent."""
    cells = {}
    for name, text in values.items():
        if match := _CELL.match(name):
            cells[int(match[1]), int(match[2])] = change(text)[:MOST_CELL]
    return cells


def typed_names(values: Mapping[str, str]) -> dict[str, str]:
    """Return the exercise chosen for each name that was not known: what was typed, else what was picked."""
    names = {}
    for field, name in values.items():
        if match := _KEY.match(field):
            chosen = values.get(f"type-{match[1]}", "").strip() or values.get(f"near-{match[1]}", "").strip()
            if chosen:
                names[name] = chosen[:MOST_CELL]
    return names


def exercise_column(table: Table) -> int | None:
    return table.layout.read_headings(table.headings)[0].get("exercise")


def mend(table: Table, cells: Mapping[tuple[int, int], str], names: Mapping[str, str]) -> None:
    """Put what was typed on the preview into the table: cells by (index, place), and exercises by the name as written
    (all rows that have it)."""
    for (index, place), text in cells.items():
        if 0 <= index < len(table.rows) and 0 <= place < len(table.headings):
            row = table.rows[index][1]
            row.extend([""] * (place + 1 - len(row)))
            row[place] = text
    column = exercise_column(table)
    if column is None or not names:
        return
    for _number, row in table.rows:
        if column < len(row) and (new := names.get(" ".join(row[column].split()))):
            row[column] = new
