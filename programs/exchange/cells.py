"""What one cell of a program's table means. Each reader returns the value or raises CellError with what to do."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from django.utils.translation import gettext as _

from programs.document import limits
from programs.document.errors import EditError
from programs.document.model import Range
from programs.document.pairs import LETTERS
from programs.document.ranges import read_range
from programs.exchange.dates import made_date
from programs.sheets.cells import CellError, a_text_of, a_yes_of

_WHOLE = re.compile(r"^(\d+)[.,]0+$")
_UNITS = re.compile(r"\s*(?:reps?|repetitions?|sets?|rir)\.?\s*$", re.IGNORECASE)
_PAIR = re.compile(r"^([A-Za-z])\s*\d?$")
_SECONDS = re.compile(r"^(\d{1,4})(?:[.,]0+)?\s*(?:s|sec|secs|seconds?)?\.?$", re.IGNORECASE)
_MINUTES = re.compile(r"^(\d{1,2}(?:[.,]\d{1,2})?)\s*(?:m|min|mins|minutes?|')\.?$", re.IGNORECASE)
_CLOCK = re.compile(r"^(\d{1,2}):(\d{2})(?::00)?$")


def a_range_of(name: str, bounds: Range) -> Callable[[str], Range | None]:
    def read(text: str) -> Range | None:
        if not text:
            return None
        text = _UNITS.sub("", text.lstrip("@×x ").strip())
        if whole := _WHOLE.match(text):
            text = whole[1]
        if made := made_date(text):
            raise CellError(
                _(
                    "The spreadsheet made a date out of what was typed, probably %(range)s. Format the column as text, "
                    "or write %(range)s with the long dash."
                )
                % {"range": made.range},
                made.range,
            )
        try:
            return read_range(text, bounds, "", name)
        except EditError as error:
            raise CellError(error.message) from error

    return read


def a_week(text: str) -> Range | None:
    if not text:
        return None
    return a_range_of(_("Week"), (1, limits.WEEKS))(re.sub(r"^(?:weeks?|wk)\.?\s*", "", text, flags=re.IGNORECASE))


def a_pair(text: str) -> str:
    if not text or text in {"-", "–"}:
        return ""
    match = _PAIR.match(text)
    if match is None or match[1].upper() not in LETTERS:
        raise CellError(_("Write one letter for exercises done in turn, such as A, or leave it empty."))
    return match[1].upper()


def a_rest(text: str) -> int | None:
    """Seconds; `2 min`, `1.5 min` and `2:30` are understood."""
    if not text:
        return None
    if match := _SECONDS.match(text):
        seconds = int(match[1])
    elif match := _MINUTES.match(text):
        seconds = round(float(match[1].replace(",", ".")) * 60)
    elif match := _CLOCK.match(text):
        seconds = int(match[1]) * 60 + int(match[2])
    else:
        raise CellError(_("Write seconds, such as 90, or minutes, such as 2 min or 2:30."))
    low, high = limits.REST_S
    if not low <= seconds <= high:
        raise CellError(_("A rest lies between %(low)s and %(high)s seconds.") % {"low": low, "high": high})
    return seconds


def a_tempo(text: str) -> str:
    if re.match(r"^\d{4}-\d\d-\d\d$", text):
        raise CellError(
            _("The spreadsheet made a date out of this tempo. Format the column as text and type it again.")
        )
    return a_text_of(limits.TEMPO)(text)


READERS: Mapping[str, Callable[[str], Any]] = {
    "block": a_text_of(limits.NAME),
    "week": a_week,
    "deload": a_yes_of("deload"),
    "week_note": a_text_of(limits.NOTE),
    "day": a_text_of(limits.NAME),
    "pair": a_pair,
    "exercise": a_text_of(120),
    "sets": a_range_of("Sets", limits.SETS),
    "reps": a_range_of("Reps", limits.REPS),
    "rir": a_range_of("RIR", limits.RIR),
    "rest": a_rest,
    "tempo": a_tempo,
    "note": a_text_of(limits.NOTE),
}
