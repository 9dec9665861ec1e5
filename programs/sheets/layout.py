"""The columns of one kind of table."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from django.utils.translation import gettext as _

from programs.sheets.names import plain


@dataclass(frozen=True, slots=True)
class Column:
    """`also` are other headings that are understood. A column that `carries` may be left empty in the rows below."""

    key: str
    heading: str
    also: Sequence[str] = ()
    needed: bool = False
    carries: bool = False


@dataclass(frozen=True)
class Layout:
    """`columns` in the order in which they are written. `enough` headings make a row the heading row, wherever it
    stands among the first rows; `example` are headings to show to whoever has none. A table holds at most `most_rows`
    rows and `most_text` bytes; `too_large` is the code of what says so (sheets/errors.py)."""

    key: str
    columns: Sequence[Column]
    enough: int
    example: str
    most_rows: int
    most_text: int
    too_large: str
    widths: Mapping[str, int] = field(default_factory=dict)
    by_key: Mapping[str, Column] = field(init=False)
    by_heading: Mapping[str, Column] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "by_key", {column.key: column for column in self.columns})
        headings = {plain(heading): column for column in self.columns for heading in (column.heading, *column.also)}
        object.__setattr__(self, "by_heading", headings)

    @property
    def headings(self) -> list[str]:
        return [column.heading for column in self.columns]

    def known(self, cells: Sequence[str]) -> int:
        """Return how many columns of this layout a row heads."""
        return len({self.by_heading[plain(text)].key for text in cells if plain(text) in self.by_heading})

    def is_heading(self, cells: Sequence[str]) -> bool:
        """Say whether a row heads the table."""
        return self.known(cells) >= self.enough

    def read_headings(self, cells: Sequence[str]) -> tuple[dict[str, int], list[str], list[str]]:
        """Return the place of each column by key, what is wrong with the headings, and what is left out, in words."""
        places: dict[str, int] = {}
        wrong, left_out = [], []
        for place, text in enumerate(cells):
            column = self.by_heading.get(plain(text))
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
        if missing := [column.heading for column in self.columns if column.needed and column.key not in places]:
            wrong.append(_("These columns are missing: %(names)s.") % {"names": ", ".join(missing)})
        return places, wrong, left_out


def layout_of(cells: Sequence[str], layouts: Sequence[Layout]) -> Layout | None:
    """Return the layout that a row heads; of several the one of which it names the most columns."""
    headed = [layout for layout in layouts if layout.is_heading(cells)]
    return max(headed, key=lambda layout: layout.known(cells)) if headed else None


def letter(place: int) -> str:
    """Return how a spreadsheet names the column at `place` (from 0): A, B, ... Z, AA."""
    name = ""
    place += 1
    while place:
        place, rest = divmod(place - 1, 26)
        name = chr(ord("A") + rest) + name
    return name
