"""What both kinds of tables have in common: how the person wants them read, and their dates and units."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from django.utils.translation import gettext as _

from logbook.past.cells import UNIT_OF, Load
from logbook.past.dates import order_of, read_date
from periodization.units import to_kg
from programs.sheets.cells import CellError
from programs.sheets.names import plain
from programs.sheets.problems import Reading
from programs.sheets.table import Table

# Rows between two words about how far it is.
TELL_EVERY = 250


@dataclass(frozen=True, slots=True)
class HowToRead:
    """`order` says whether day or month stands first, where a file leaves it open ("" asks); `unit` is that of numbers
    without one; `today` is the client's, and no day after it is taken. `sure` of unusually heavy loads."""

    unit: str
    today: dt.date
    order: str = ""
    sure: bool = False


@dataclass(slots=True)
class PastReading(Reading):
    """`asks_order` when the file leaves open whether 05/06 is in May or in June, and nobody has said."""

    order: str = ""
    open_order: bool = False
    unit: str = "kg"
    units_open: bool = False
    known_dates: dict[str, dt.date | None] = field(default_factory=dict)

    def begin(self, table: Table, how: HowToRead, amount: str) -> bool:
        """Find the columns, the order of dates and the unit (of the column `amount`); False where that fails."""
        if not self.read_headings(table):
            return False
        place = self.places["date"]
        judged, self.open_order = order_of(cells[place] for _number, cells in table.rows if place < len(cells))
        self.order = judged or how.order
        self.unit = how.unit
        if amount in self.places:
            said = UNIT_OF.get(plain(table.headings[self.places[amount]]).rpartition(" ")[2])
            self.unit, self.units_open = said or how.unit, said is None
        return True

    @property
    def asks_order(self) -> bool:
        return self.open_order and not self.order

    def date(self, row: int, index: int, text: str, today: dt.date) -> dt.date | None:
        """Return the day of a cell, None (with a problem noted) for one that cannot be read."""
        if text in self.known_dates:
            return self.known_dates[text]
        try:
            day = read_date(text, self.order, today)
        except CellError as error:
            if not self.asks_order:
                self.problem(row, index, "date", text, error.message)
            return None
        self.known_dates[text] = day
        return day

    def amount(self, values: Mapping[str, Any], key: str) -> tuple[float, str, float] | None:
        """Return (as typed, unit, kilograms) of a load or a body mass; None for an empty cell."""
        load: Load | None = values[key]
        if load is None:
            return None
        unit = load[1] or values["unit"] or self.unit
        return load[0], unit, to_kg(load[0], unit)  # type: ignore[arg-type]


def two_units(values: Mapping[str, Any], key: str) -> str:
    """Say that a cell names one unit and its column of units another; empty when they agree."""
    load: Load | None = values[key]
    if load and load[1] and values["unit"] and load[1] != values["unit"]:
        return _("Here it says %(one)s, and in the column of units %(other)s.") % {
            "one": load[1],
            "other": values["unit"],
        }
    return ""
