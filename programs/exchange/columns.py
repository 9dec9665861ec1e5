"""The columns of a program as a table, in the order in which they are written."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from programs.exchange.names import plain


@dataclass(frozen=True, slots=True)
class Column:
    """`also` are other headings that are understood. A column that `carries` may be left empty in the rows below."""

    key: str
    heading: str
    also: Sequence[str] = ()
    needed: bool = False
    carries: bool = False


# The headings are the format and not translated: a file is read the same everywhere.
COLUMNS = (
    Column("block", "Block", ("mesocycle", "phase"), carries=True),
    Column("week", "Week", ("week number", "microcycle"), carries=True),
    Column("deload", "Deload", ("deload week",)),
    Column("week_note", "Week note", ("note on the week",)),
    Column("day", "Day", ("training day", "session"), needed=True, carries=True),
    Column("pair", "Pair", ("paired", "paired sets")),
    Column("exercise", "Exercise", ("movement",), needed=True),
    Column("sets", "Sets", ("hard sets", "set"), needed=True),
    Column("reps", "Reps", ("repetitions", "rep range", "rep"), needed=True),
    Column("rir", "RIR", ("reps in reserve", "repetitions in reserve")),
    Column("rest", "Rest", ("rest s", "rest seconds")),
    Column("tempo", "Tempo"),
    Column("note", "Note", ("notes", "note on the exercise")),
)
BY_KEY: Mapping[str, Column] = {column.key: column for column in COLUMNS}
BY_HEADING: Mapping[str, Column] = {
    plain(heading): column for column in COLUMNS for heading in (column.heading, *column.also)
}
# So many headings make a row the heading row, wherever it stands among the first rows.
ENOUGH = 3


def letter(place: int) -> str:
    """Return how a spreadsheet names the column at `place` (from 0): A, B, ... Z, AA."""
    name = ""
    place += 1
    while place:
        place, rest = divmod(place - 1, 26)
        name = chr(ord("A") + rest) + name
    return name


def read_headings(cells: Sequence[str]) -> tuple[dict[str, int], list[str], list[str]]:
    """Return the place of each column by key, what is wrong with the headings, and what is left out, in words."""
    places: dict[str, int] = {}
    wrong, left_out = [], []
    for place, text in enumerate(cells):
        column = BY_HEADING.get(plain(text))
        if column is None:
            if text.strip():
                left_out.append(text.strip()[:60])
        elif column.key in places:
            wrong.append(
                _("“%(heading)s” heads two columns, %(one)s and %(other)s. Take one away.")
                % {"heading": column.heading, "one": letter(places[column.key]), "other": letter(place)}
            )
        else:
            places[column.key] = place
    if missing := [column.heading for column in COLUMNS if column.needed and column.key not in places]:
        wrong.append(_("These columns are missing: %(names)s.") % {"names": ", ".join(missing)})
    return places, wrong, left_out


def is_heading(cells: Sequence[str]) -> bool:
    """Say whether a row heads the table."""
    return len({BY_HEADING[plain(text)].key for text in cells if plain(text) in BY_HEADING}) >= ENOUGH
