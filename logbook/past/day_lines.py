"""A table of days: check-ins and body mass."""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from django.utils.translation import gettext as _

from logbook.operations.data_wellbeing import BODY_MASS_KG, ITEMS
from logbook.past.cells import DAY_READERS
from logbook.past.reading import TELL_EVERY, HowToRead, PastReading, two_units
from programs.sheets.table import Table


@dataclass(frozen=True, slots=True)
class DayLine:
    """One day. `items` is empty without a check-in; `mass` is (as typed, unit, kilograms)."""

    row: int
    date: dt.date
    items: dict[str, int]
    mass: tuple[float, str, float] | None
    note: str


@dataclass(slots=True)
class DayLines(PastReading):
    """The rows that make sense."""

    lines: list[DayLine] = field(default_factory=list)


def read_days(table: Table, how: HowToRead, told: Callable[[int], None] = lambda rows: None) -> DayLines:
    """Read every cell; a day stands once, and has all five items or none."""
    found = DayLines(table.layout)
    if not found.begin(table, how, "mass"):
        return found
    seen: dict[dt.date, int] = {}
    for index, (row, cells) in enumerate(table.rows):
        if index % TELL_EVERY == 0:
            told(index)
        values, bad = found.values(DAY_READERS, row, index, cells)
        _row(found, row, index, values, bad, how, seen)
    return found


def _row(
    found: DayLines, row: int, index: int, values: dict[str, Any], bad: set[str], how: HowToRead,
    seen: dict[dt.date, int],
) -> None:  # fmt: skip
    before = len(found.problems)
    if not values["date"] and "date" not in bad:
        found.problem(row, index, "date", "", _("This cell is empty."))
    date = found.date(row, index, values["date"], how.today) if values["date"] else None
    if date and (other := seen.setdefault(date, row)) != row:
        found.problem(row, index, "date", values["date"], _("Row %(row)s is the same day.") % {"row": other})
    items = {name: values[name] for name in ITEMS if values[name] is not None}
    if items and len(items) < len(ITEMS):
        for name in ITEMS:
            if name not in items and name not in bad:
                found.problem(row, index, name, "", _("This cell is empty. A check-in has all five answers, or none."))
    mass = found.amount(values, "mass")
    low, high = BODY_MASS_KG
    if mass and not low <= mass[2] <= high:
        message = _("A body mass lies between %(low)g and %(high)g kg.") % {"low": low, "high": high}
        found.problem(row, index, "mass", f"{mass[0]:g}", message)
    if message := two_units(values, "mass"):
        found.problem(row, index, "mass", f"{values['mass'][0]:g} {values['mass'][1]}", message)
    if not items and mass is None and not bad and len(found.problems) == before:
        found.problem(row, index, "", "", _("Neither a check-in nor a body mass stands in this row."))
    if date and not bad and len(found.problems) == before:
        found.lines.append(DayLine(row, date, items, mass, values["note"]))
