"""Tables of past training for tests."""

import datetime as dt

from logbook.past.columns import DAYS, SETS
from logbook.past.reading import HowToRead
from programs.sheets.names import Catalogue, Known
from programs.sheets.table import Table

TODAY = dt.date(2024, 5, 15)
CATALOGUE = Catalogue.of(
    [Known(1, "curl", "Curl", 90), Known(2, "one-arm-row", "One arm row", 90), Known(3, "pull-up", "Pull-up", 90),
     Known(4, "plank", "Plank", 60)]
)  # fmt: skip
FACTS = {
    1: ("both", "external", "reps"),
    2: ("single", "external", "reps"),
    3: ("both", "body_plus", "reps"),
    4: ("both", "external", "seconds"),
}
HOW = HowToRead(unit="kg", today=TODAY)


def sets_table(headings, *rows):
    """A table of sets from text with `|` between the cells; the first row below the headings is row 2."""
    return Table(SETS, _cells(headings), [(number, _cells(row)) for number, row in enumerate(rows, 2)])


def days_table(headings, *rows):
    return Table(DAYS, _cells(headings), [(number, _cells(row)) for number, row in enumerate(rows, 2)])


def _cells(text):
    return [cell.strip() for cell in text.split("|")]
