"""A table of sets, row by row: what each row says, and everything that is wrong with it."""

import datetime as dt
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from django.utils.translation import gettext as _

from logbook.models import Side
from logbook.operations.data_sets import MOST_COUNT, MOST_LOAD_KG, SURE_LOAD_KG
from logbook.past.cells import MOST_SETS, SET_READERS
from logbook.past.reading import TELL_EVERY, HowToRead, PastReading, two_units
from programs.models import Laterality, LoadKind
from programs.sheets.names import Catalogue
from programs.sheets.table import Table

Facts = Mapping[int, tuple[str, str, str]]  # exercise -> laterality, kind of load, what it counts
SessionKey = tuple[dt.date, str]
CARRIED = ("date", "session", "exercise")
ABOUT_SESSION = ("session_rpe", "minutes", "session_note")


@dataclass(frozen=True, slots=True)
class SetLine:
    """One set. `session` names the session where there are several a day; `number` is 0 until all rows are read."""

    row: int
    index: int
    date: dt.date
    session: str
    exercise: int
    number: int
    side: str
    warm_up: bool
    load: float
    unit: str
    load_kg: float
    reps: int
    rir: float | None
    note: str

    @property
    def key(self) -> SessionKey:
        return self.date, self.session.casefold()

    @property
    def place(self) -> tuple[dt.date, int, bool, int, str]:
        return self.date, self.exercise, self.warm_up, self.number, self.side


@dataclass(slots=True)
class SetLines(PastReading):
    """`heavy` are lines over 600 kg, which are asked about once. `sessions` holds effort, minutes and note."""

    lines: list[SetLine] = field(default_factory=list)
    heavy: list[SetLine] = field(default_factory=list)
    sessions: dict[SessionKey, dict[str, Any]] = field(default_factory=dict)


def read_sets(
    table: Table, catalogue: Catalogue, facts: Facts, how: HowToRead, told: Callable[[int], None] = lambda rows: None
) -> SetLines:
    """Read every cell; what a row leaves out of date, session and exercise is as in the row above. `told` hears now and
    then how many rows are read."""
    found = SetLines(table.layout)
    if not found.begin(table, how, "load"):
        return found
    above = dict.fromkeys(CARRIED, "")
    for index, (row, cells) in enumerate(table.rows):
        if index % TELL_EVERY == 0:
            told(index)
        values, bad = found.values(SET_READERS, row, index, cells)
        if values["date"] and values["date"] != above["date"]:
            above = dict.fromkeys(CARRIED, "")
        elif values["session"] and values["session"] != above["session"]:
            above["exercise"] = ""
        above.update({key: values[key] for key in CARRIED if values[key]})
        _row(found, row, index, {**values, **above}, bad, catalogue, facts, how)
    _number(found)
    return found


def _row(
    found: SetLines, row: int, index: int, values: dict[str, Any], bad: set[str],
    catalogue: Catalogue, facts: Facts, how: HowToRead,
) -> None:  # fmt: skip
    before = len(found.problems)
    for key, message in (
        ("date", _("This cell is empty, and no row above has a day.")),
        ("exercise", _("This cell is empty, and no row above of this day names an exercise.")),
        ("reps", _("This cell is empty.")),
    ):
        if not values[key] and values[key] != 0 and key not in bad:
            found.problem(row, index, key, "", message)
    date = found.date(row, index, values["date"], how.today) if values["date"] and "date" not in bad else None
    if date and not bad & set(ABOUT_SESSION):
        _session(found, row, index, (date, values["session"].casefold() if values["session"] else ""), values)
    exercise = catalogue.named(values["exercise"]) if values["exercise"] and "exercise" not in bad else None
    if values["exercise"] and "exercise" not in bad and exercise is None:
        found.missing.setdefault(values["exercise"], []).append(row)
    if exercise is None or date is None or bad or len(found.problems) > before:
        return
    line = _line(found, row, index, values, date, exercise.pk, facts[exercise.pk])
    if line is None:
        return
    found.lines.append(line)
    if line.load_kg > SURE_LOAD_KG:
        found.heavy.append(line)


def _session(found: SetLines, row: int, index: int, key: SessionKey, values: Mapping[str, Any]) -> None:
    """Keep what a row says about its session; a second row may only say the same."""
    told = found.sessions.setdefault(key, {})
    for name in ABOUT_SESSION:
        if values[name] in (None, ""):
            continue
        if told.setdefault(name, values[name]) != values[name]:
            message = _("Another row of this session says %(other)s.") % {"other": told[name]}
            found.problem(row, index, name, str(values[name]), message)


def _line(
    found: SetLines, row: int, index: int, values: Mapping[str, Any], date: dt.date, exercise: int,
    facts: tuple[str, str, str],
) -> SetLine | None:  # fmt: skip
    laterality, load_kind, rep_unit = facts
    amount = found.amount(values, "load")
    wrong: list[tuple[str, str]] = []
    if amount is None and load_kind != LoadKind.BODY_PLUS:
        wrong.append(("load", _("This cell is empty. Write 0 where there was no load.")))
    if message := two_units(values, "load"):
        wrong.append(("load", message))
    load, unit, load_kg = amount or (0.0, values["unit"] or found.unit, 0.0)
    if load_kg > MOST_LOAD_KG:
        wrong.append(("load", _("Really? Nobody lifts more than 1000 kg: is the unit right?")))
    if values["reps"] > (most := MOST_COUNT[rep_unit]):
        wrong.append(("reps", _("At most %(most)s.") % {"most": most}))
    if laterality == Laterality.SINGLE and values["side"] in ("", Side.BOTH):
        wrong.append(("side", _("This exercise is done one side at a time: write left or right.")))
    for key, message in wrong:
        # A column that the file lacks cannot be typed into: the problem then speaks of the row.
        found.problem(row, index, key, values_text(values, key), message)
    if wrong:
        return None
    return SetLine(
        row, index, date, values["session"], exercise, values["set"] or 0, values["side"] or Side.BOTH,
        values["warm_up"], load, unit, load_kg, values["reps"], values["rir"], values["note"],
    )  # fmt: skip


def values_text(values: Mapping[str, Any], key: str) -> str:
    """Return a value as it may have been typed, for the field in which it is mended."""
    value = values[key]
    if key == "load" and value is not None:
        return f"{value[0]:g} {value[1]}".strip()
    return "" if value is None else str(value)


def _number(found: SetLines) -> None:
    """Count the sets that have no number, in the order of the rows; a number that stands twice is a problem."""
    taken: dict[tuple[Any, ...], int] = {}
    highest: Counter[tuple[Any, ...]] = Counter()
    for line in found.lines:
        if line.number:
            group = (*line.key, line.exercise, line.warm_up, line.side)
            highest[group] = max(highest[group], line.number)
            other = taken.setdefault((*group, line.number), line.row)
            if other != line.row:
                message = _("Row %(row)s is the same set of this exercise and session.") % {"row": other}
                found.problem(line.row, line.index, "set", str(line.number), message)
    for place, line in enumerate(found.lines):
        if not line.number:
            group = (*line.key, line.exercise, line.warm_up, line.side)
            highest[group] += 1
            if highest[group] > MOST_SETS:
                message = _("More than %(most)s sets of one exercise in one session.") % {"most": MOST_SETS}
                found.problem(line.row, line.index, "set", "", message)
            found.lines[place] = replace(line, number=highest[group])
