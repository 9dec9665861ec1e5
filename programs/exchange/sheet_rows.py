"""The table's rows as lines of a program, and everything that is wrong with them."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from django.utils.translation import gettext as _

from programs.document.model import Range
from programs.exchange.cells import CellError, read_cell
from programs.exchange.columns import BY_KEY, COLUMNS, letter, read_headings
from programs.exchange.names import Catalogue, Known
from programs.exchange.table import Table

RIR = (1, 2)


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
class Line:
    """One row that makes sense by itself. `exercise` is None where the row only opens a block, a week or a day."""

    row: int
    index: int
    block: str
    weeks: Range
    deload: bool
    week_note: str
    day: str
    exercise: Known | None
    pair: str = ""
    sets: Range = (3, 3)
    reps: Range = (8, 12)
    rir: Range = RIR
    rest_s: int = 120
    tempo: str = ""
    note: str = ""


@dataclass(slots=True)
class Lines:
    """`missing` counts, by the name as written, the rows whose exercise is not known."""

    lines: list[Line] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    missing: dict[str, list[int]] = field(default_factory=dict)
    headings_wrong: list[str] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)
    places: dict[str, int] = field(default_factory=dict)

    def problem(self, row: int, index: int, key: str, value: str, message: str, suggestion: str = "") -> None:
        place = self.places.get(key, -1)
        heading = BY_KEY[key].heading if key in BY_KEY else ""
        self.problems.append(Problem(row, index, place, value, message, suggestion, heading))


def read_lines(table: Table, catalogue: Catalogue) -> Lines:
    """Read every cell; what a row leaves out of block, week and day is as in the row above."""
    found = Lines()
    found.places, found.headings_wrong, found.left_out = read_headings(table.headings)
    if found.headings_wrong:
        return found
    above: dict[str, Any] = {"block": "", "week": (1, 1), "day": ""}
    for index, (row, cells) in enumerate(table.rows):
        values, bad = _values(found, row, index, cells)
        if values.get("block") and values["block"] != above["block"]:
            above.update(week=(1, 1), day="")
        if values.get("week") and values["week"] != above["week"]:
            above.update(day="")
        above.update({key: values[key] for key in above if values.get(key)})
        _line(found, row, index, {**values, **above}, bad, catalogue)
    return found


def _values(found: Lines, row: int, index: int, cells: list[str]) -> tuple[dict[str, Any], set[str]]:
    """Return the values by column, None for a cell that is wrong, and the columns of those."""
    values: dict[str, Any] = {}
    bad = set()
    for column in COLUMNS:
        place = found.places.get(column.key)
        text = cells[place] if place is not None and place < len(cells) else ""
        try:
            values[column.key] = read_cell(column.key, text)
        except CellError as error:
            found.problem(row, index, column.key, text, error.message, error.suggestion)
            values[column.key] = None
            bad.add(column.key)
    return values, bad


def _line(found: Lines, row: int, index: int, values: Mapping[str, Any], bad: set[str], catalogue: Catalogue) -> None:
    if "exercise" in bad:
        return
    name = values["exercise"]
    opens = {"block": values["block"], "weeks": values["week"], "day": values["day"]}
    opens |= {"deload": values["deload"], "week_note": values["week_note"]}
    if not name:
        told = [key for key in ("sets", "reps", "rir", "pair", "rest", "tempo", "note") if values[key]]
        if told:
            message = _("No exercise is named here. Merged cells hold their value only in their first row.")
            found.problem(row, index, "exercise", "", message)
        elif not bad:
            found.lines.append(Line(row, index, exercise=None, **opens))
        return
    before = len(found.problems)
    for key in ("day", "sets", "reps"):
        if not values[key] and key not in bad:
            message = _("This cell is empty.")
            if key == "day":
                message = _("This cell is empty, and no row above names a training day.")
            found.problem(row, index, key, "", message)
    exercise = catalogue.named(name)
    if exercise is None:
        found.missing.setdefault(name, []).append(row)
    if exercise is None or bad or len(found.problems) > before:
        return
    rest = values["rest"]
    found.lines.append(
        Line(
            row,
            index,
            **opens,
            exercise=exercise,
            pair=values["pair"],
            sets=values["sets"],
            reps=values["reps"],
            rir=values["rir"] or RIR,
            rest_s=exercise.rest_s if rest is None else rest,
            tempo=values["tempo"],
            note=values["note"],
        )
    )
