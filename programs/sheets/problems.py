"""What is wrong in a table, by row and column."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from django.utils.translation import ngettext

from programs.sheets.cells import CellError, read_cell
from programs.sheets.layout import Layout, letter
from programs.sheets.table import Table


@dataclass(frozen=True, slots=True)
class Problem:
    """One cell that is wrong. `row` is its number in the file, `index` and `place` find it in the table; a `place` of
    -1 speaks of the whole row, and then nothing can be typed instead."""

    row: int
    index: int
    place: int
    value: str
    message: str
    suggestion: str = ""
    heading: str = ""
    exercise: str = ""  # what the row is about, for whoever mends it

    @property
    def cell(self) -> str:
        return f"{letter(self.place)}{self.row}" if self.place >= 0 else str(self.row)


@dataclass(frozen=True, slots=True)
class Unknown:
    """An exercise that is not known here: what the file calls it, where, and what it may mean here."""

    key: str
    name: str
    near: list[str]
    where: str = ""


@dataclass(slots=True)
class Reading:
    """What reading a table found out. `missing` has, by the name as written, the rows whose exercise is not known."""

    layout: Layout
    problems: list[Problem] = field(default_factory=list)
    missing: dict[str, list[int]] = field(default_factory=dict)
    headings_wrong: list[str] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)
    places: dict[str, int] = field(default_factory=dict)

    def read_headings(self, table: Table) -> bool:
        """Find the columns; False where the table cannot be read by them."""
        self.places, self.headings_wrong, self.left_out = self.layout.read_headings(table.headings)
        return not self.headings_wrong

    def problem(self, row: int, index: int, key: str, value: str, message: str, suggestion: str = "") -> None:
        place = self.places.get(key, -1)
        heading = self.layout.by_key[key].heading if key in self.layout.by_key else ""
        self.problems.append(Problem(row, index, place, value, message, suggestion, heading))

    def values(
        self, readers: Mapping[str, Callable[[str], Any]], row: int, index: int, cells: list[str]
    ) -> tuple[dict[str, Any], set[str]]:
        """Return the values by column, None for a cell that is wrong, and the columns of those."""
        values: dict[str, Any] = {}
        bad = set()
        for column in self.layout.columns:
            place = self.places.get(column.key)
            text = cells[place] if place is not None and place < len(cells) else ""
            try:
                values[column.key] = read_cell(readers, column.key, text)
            except CellError as error:
                self.problem(row, index, column.key, text, error.message, error.suggestion)
                values[column.key] = None
                bad.add(column.key)
        return values, bad

    def text(self, table: Table, index: int, key: str) -> str:
        """Return the cell as it stands in the table."""
        cells, place = table.rows[index][1], self.places.get(key)
        return cells[place] if place is not None and place < len(cells) else ""


def rows_words(numbers: list[int]) -> str:
    """Name rows, the first eight of them."""
    shown = ", ".join(map(str, numbers[:8]))
    more = len(numbers) - 8
    if more > 0:
        shown += " " + ngettext("and %(count)d more", "and %(count)d more", more) % {"count": more}
    return shown
