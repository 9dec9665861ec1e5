"""The table's rows as lines of a program, and everything that is wrong with them."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from django.utils.translation import gettext as _

from programs.document.model import Range
from programs.exchange.cells import READERS
from programs.sheets.names import Catalogue, Known
from programs.sheets.problems import Reading
from programs.sheets.table import Table

RIR = (1, 2)


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
class Lines(Reading):
    """The rows that make sense, and what is wrong with the others."""

    lines: list[Line] = field(default_factory=list)


def read_lines(table: Table, catalogue: Catalogue) -> Lines:
    """Read every cell; what a row leaves out of block, week and day is as in the row above."""
    found = Lines(table.layout)
    if not found.read_headings(table):
        return found
    above: dict[str, Any] = {"block": "", "week": (1, 1), "day": ""}
    for index, (row, cells) in enumerate(table.rows):
        values, bad = found.values(READERS, row, index, cells)
        if values.get("block") and values["block"] != above["block"]:
            above.update(week=(1, 1), day="")
        if values.get("week") and values["week"] != above["week"]:
            above.update(day="")
        above.update({key: values[key] for key in above if values.get(key)})
        _line(found, row, index, {**values, **above}, bad, catalogue)
    return found


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
