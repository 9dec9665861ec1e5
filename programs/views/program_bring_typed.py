"""What was typed on the preview of an import."""

import re
from collections.abc import Mapping

from programs.exchange.columns import read_headings
from programs.exchange.dates import made_date
from programs.exchange.table import MOST_CELL, Table

_CELL = re.compile(r"^cell-(\d{1,5})-(\d{1,2})\Z")
_KEY = re.compile(r"^key-(\d{1,3})\Z")


def typed_cells(values: Mapping[str, str]) -> dict[tuple[int, int], str]:
    """Return the cells by (index, place). With `do=dates`, those that are dates are taken back to ranges."""
    cells = {}
    for name, text in values.items():
        if match := _CELL.match(name):
            made = made_date(text) if values.get("do") == "dates" else None
            cells[int(match[1]), int(match[2])] = made.range if made else text[:MOST_CELL]
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
    return read_headings(table.headings)[0].get("exercise")
