"""What one cell of past training means. Each reader returns the value or raises CellError with what to do about it."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from django.utils.translation import gettext as _

from logbook.models import Side
from logbook.operations.data_sessions import MOST_MINUTES
from logbook.operations.data_sets import MOST_COUNT, MOST_RIR
from programs.sheets.cells import CellError, a_text_of, a_yes_of

Load = tuple[float, str]
MOST_SETS = 100
_NUMBER = re.compile(r"^\d{1,7}(?:[.,]\d{1,9})?$")
_WHOLE = re.compile(r"^(\d{1,7})(?:[.,]0+)?$")
_THOUSANDS = re.compile(r"^\d,\d{3}$")
_LOAD = re.compile(
    r"^(?P<body>bw|body ?weight|body ?mass)?\s*\+?\s*(?P<number>[\d.,]+)?\s*(?P<unit>[a-z]+\.?)?$", re.IGNORECASE
)
_EMPTY = {"", "-", "–", "—"}
UNITS = {
    "kg": ("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
    "lb": ("lb", "lbs", "pound", "pounds"),
}
UNIT_OF = {word: unit for unit, words in UNITS.items() for word in words}
SIDES = {"left": Side.LEFT, "l": Side.LEFT, "right": Side.RIGHT, "r": Side.RIGHT, "both": Side.BOTH, "b": Side.BOTH}


def number(text: str) -> float:
    """Return a number with a decimal point or a decimal comma. `1,250` could be either, and is asked about."""
    if _THOUSANDS.match(text):
        raise CellError(_("Is this a thousand or a fraction? Write it without the comma, or with a decimal point."))
    if not _NUMBER.match(text):
        raise CellError(_("This is not a number."))
    return float(text.replace(",", "."))


def a_number_of(low: float, high: float, *, step: float = 0, drop: str = "") -> Callable[[str], float | None]:
    """Return a reader of a number in steps; `drop` is a unit that may stand behind it."""

    def read(text: str) -> float | None:
        if text in _EMPTY:
            return None
        value = number(re.sub(rf"\s*(?:{drop})\.?$", "", text, flags=re.IGNORECASE) if drop else text)
        if not low <= value <= high:
            raise CellError(_("This lies between %(low)g and %(high)g.") % {"low": low, "high": high})
        if step and value / step % 1:
            raise CellError(_("Use whole or half steps."))
        return value

    return read


def a_whole_of(low: int, high: int, *, drop: str = "") -> Callable[[str], int | None]:
    """Return a reader of a whole number; `drop` is a unit that may stand behind it."""

    def read(text: str) -> int | None:
        if text in _EMPTY:
            return None
        match = _WHOLE.match(re.sub(rf"\s*(?:{drop})\.?$", "", text, flags=re.IGNORECASE) if drop else text)
        if match is None:
            raise CellError(_("Write one whole number: what was done, not a range."))
        if not low <= int(match[1]) <= high:
            raise CellError(_("This lies between %(low)g and %(high)g.") % {"low": low, "high": high})
        return int(match[1])

    return read


def a_load(text: str) -> Load | None:
    """Return (load, unit or ""); body weight alone is a load of 0, and `bw + 10` one of 10."""
    if text in _EMPTY:
        return None
    match = _LOAD.match(text)
    unit = UNIT_OF.get((match["unit"] or "").casefold().rstrip("."), "?") if match and match["unit"] else ""
    if match is None or unit == "?" or not (match["body"] or match["number"]):
        if text.startswith("-"):
            raise CellError(_("A load is 0 or more; where a machine helps, write how much it helps."))
        raise CellError(_("Write a number, such as 82.5, with kg or lb behind it if you like."))
    return (number(match["number"]) if match["number"] else 0.0), unit


def a_unit(text: str) -> str:
    if text in _EMPTY:
        return ""
    if unit := UNIT_OF.get(text.casefold().rstrip(".")):
        return unit
    raise CellError(_("Write kg or lb."))


def a_side(text: str) -> str:
    if text in _EMPTY:
        return ""
    if side := SIDES.get(text.casefold().rstrip(".")):
        return side
    raise CellError(_("Write left, right or both."))


SET_READERS: Mapping[str, Callable[[str], Any]] = {
    "date": a_text_of(60),
    "session": a_text_of(60),
    "exercise": a_text_of(120),
    "set": a_whole_of(1, MOST_SETS),
    "warm_up": a_yes_of("w", "warm-up", "warm up", "warmup"),
    "side": a_side,
    "load": a_load,
    "unit": a_unit,
    "reps": a_whole_of(0, max(MOST_COUNT.values()), drop="reps?|repetitions?|s|sec|seconds?|steps?"),
    "rir": a_number_of(0, MOST_RIR, step=0.5, drop="rir"),
    "note": a_text_of(300),
    "session_rpe": a_number_of(0, 10, step=0.5, drop="rpe"),
    "minutes": a_whole_of(1, MOST_MINUTES, drop="m|min|mins|minutes?"),
    "session_note": a_text_of(1900),
}
an_item = a_whole_of(1, 5)
DAY_READERS: Mapping[str, Callable[[str], Any]] = {
    "date": a_text_of(60),
    **dict.fromkeys(("fatigue", "sleep", "soreness", "stress", "mood"), an_item),
    "mass": a_load,
    "unit": a_unit,
    "note": a_text_of(300),
}
