"""Dates that a spreadsheet made out of what was typed: 8-12 becomes 8 December, or August the twelfth.

Which of the two it was does not matter for a range, whose smaller number stands first.
"""

import datetime as dt
import re
from dataclasses import dataclass

from programs.sheets.months import month_number

_ISO = re.compile(r"^(\d{4})-(\d{1,2})(?:-(\d{1,2}))?(?:[ T]\d\d:\d\d(?::\d\d)?)?$")
_SLASHED = re.compile(r"^(\d{1,2})/(\d{1,2})(?:/(\d{2,4}))?$")
_DOTTED = re.compile(r"^(\d{1,2})\.(\d{1,2})\.(\d{2,4})?$")
_DASHED = re.compile(r"^(\d{1,2})-(\d{1,2})-(\d{4})$")
_DAY_FIRST = re.compile(r"^(\d{1,2})[-. /]{1,2}([^\W\d]{3,9})\.?(?:[-. /]{1,2}(\d{2,4}))?$")
_MONTH_FIRST = re.compile(r"^([^\W\d]{3,9})\.?[-. /]{1,2}(\d{1,4})(?:,? (\d{4}))?$")
# Days since the end of 1899, as spreadsheets count; here from the years 2000 to 2099.
_SERIAL = re.compile(r"^(3[67]\d{3}|[4-6]\d{4}|7[0-2]\d{3})(?:[.,]0+)?$")


@dataclass(frozen=True, slots=True)
class MadeDate:
    """Two numbers that became a date, the smaller first."""

    low: int
    high: int

    @property
    def range(self) -> str:
        return f"{self.low}–{self.high}" if self.low != self.high else str(self.low)


def made_date(text: str) -> MadeDate | None:
    """Return the numbers behind a cell that is a date; None for anything else."""
    text = text.strip()
    if match := _ISO.match(text):
        year, month, day = match.groups()
        return _pair(int(month), int(day) if day else int(year) % 100)
    for pattern in (_SLASHED, _DOTTED, _DASHED):
        if match := pattern.match(text):
            return _pair(int(match[1]), int(match[2]))
    if match := _DAY_FIRST.match(text):
        return _month_and(match[2], int(match[1]))
    if match := _MONTH_FIRST.match(text):
        return _month_and(match[1], int(match[2]) % 100)
    if match := _SERIAL.match(text):
        day = dt.date(1899, 12, 30) + dt.timedelta(days=int(match[1]))
        return _pair(day.month, day.day)
    return None


def _month_and(name: str, number: int) -> MadeDate | None:
    month = month_number(name)
    return _pair(month, number) if month else None


def _pair(one: int, other: int) -> MadeDate:
    return MadeDate(min(one, other), max(one, other))
