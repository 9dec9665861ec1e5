"""What an answer to "why" says, whatever the number: the same parts in the same order."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from periodization.rules import Rule
from periodization.units import from_kg
from programs.templatetags.loads import plain

Value = float | int | str | bool | None


def shown(value: float | None, digits: int = 2) -> str:
    """Write a number for a reader; a dash for none."""
    return "–" if value is None else plain(round(value, digits)).replace("-", "−")


@dataclass(frozen=True)
class Cell:
    """One cell: `text` for a reader, `value` in full precision for whoever computes it again."""

    text: str
    value: Value = None
    link: str = ""

    @property
    def machine(self) -> str:
        """The value as HTML's `data` element holds it: with a point, whatever the reader's number format."""
        if self.value is None:
            return ""
        return str(int(self.value)) if isinstance(self.value, bool) else str(self.value)

    @property
    def numeric(self) -> bool:
        return isinstance(self.value, int | float) and not isinstance(self.value, bool)


def number(value: float | None, digits: int = 2) -> Cell:
    """Return a cell of a number."""
    return Cell(shown(value, digits), value)


def logged(load_kg: float | None, unit: str, typed: tuple[float, str] | None, digits: int = 2) -> Cell:
    """Return a cell of a logged load in the reader's `unit`; what was `typed` stands beside it where its unit is
    another."""
    value = None if load_kg is None else from_kg(load_kg, "lb" if unit == "lb" else "kg")
    cell = number(value, digits)
    return replace(cell, text=f"{cell.text} ({shown(typed[0])} {typed[1]})") if typed and typed[1] != unit else cell


def words(text: object, value: Value = None, link: str = "") -> Cell:
    """Return a cell of text; its value is the text unless another is given."""
    return Cell(str(text), str(text) if value is None else value, link)


@dataclass(frozen=True)
class Column:
    """`key` names the column for whoever reads the page by machine."""

    key: str
    label: str
    numeric: bool = False


@dataclass(frozen=True)
class Table:
    """Entries that a number came from."""

    key: str
    title: str
    columns: Sequence[Column]
    rows: Sequence[Sequence[Cell]]
    empty: str = ""
    note: str = ""

    @property
    def lines(self) -> list[list[tuple[Column, Cell]]]:
        return [list(zip(self.columns, row, strict=True)) for row in self.rows]


@dataclass(frozen=True)
class Figure:
    """One number. `kept` is what the worker saved, `again` what the entries listed give now, `formula` how, with this
    client's values put in. `text` overrides how it is written."""

    key: str
    label: str
    kept: float | None
    again: float | None
    formula: str = ""
    digits: int = 2
    unit: str = ""
    text: str = ""

    @property
    def shown(self) -> str:
        if self.text:
            return self.text
        return f"{shown(self.kept, self.digits)}\u00a0{self.unit}" if self.unit else shown(self.kept, self.digits)

    @property
    def worked(self) -> bool:
        """Whether the formula has this client's values in it, and is no sentence."""
        return self.formula[:1] in set("0123456789(√")

    @property
    def machine(self) -> str:
        return "" if self.kept is None else str(self.kept)

    @property
    def agrees(self) -> bool:
        """Whether the entries still give the number; where not, one was changed and the worker has not come to it."""
        if self.kept is None or self.again is None:
            return self.kept is self.again
        return abs(self.kept - self.again) <= 1e-9 * max(1.0, abs(self.kept))


@dataclass(frozen=True)
class Answer:
    """`lead` is a sentence or two; `thresholds` are (name, value); `method` is a page of docs/methods.

    `scale` is (shown, floor, ceiling, planned) where the number stands against a range.
    """

    title: str
    figures: Sequence[Figure]
    tables: Sequence[Table]
    rules: Sequence[Rule]
    method: str
    lead: Sequence[str] = ()
    thresholds: Sequence[tuple[str, str]] = ()
    uncertainty: str = ""
    load_dispute: bool = False
    scale: tuple[float, float, float, float] | None = None
    see: Sequence[tuple[str, str]] = field(default=())

    @property
    def stale(self) -> bool:
        return not all(one.agrees for one in self.figures)
