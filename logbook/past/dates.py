"""Days as people and spreadsheets write them. Where day and month could be either, a person says which stands first."""

import datetime as dt
import re
from collections.abc import Iterable

from django.utils.translation import gettext as _

from programs.sheets.cells import CellError
from programs.sheets.months import month_number

DAY_FIRST, MONTH_FIRST = "dmy", "mdy"
EARLIEST = dt.date(1990, 1, 1)
_TIME = r"(?:[ T,]+\d{1,2}:\d\d(?::\d\d(?:\.\d+)?)?(?: ?[AaPp]\.?[Mm]\.?)?(?:Z|[+-]\d\d:?\d\d)?)?$"
_ISO = re.compile(r"^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})" + _TIME)
_DOTTED = re.compile(r"^(\d{1,2})\. ?(\d{1,2})\. ?(\d{4}|\d{2})" + _TIME)
_EITHER = re.compile(r"^(\d{1,2})[-/](\d{1,2})[-/](\d{4}|\d{2})" + _TIME)
_DAY_NAMED = re.compile(
    r"^(?:[^\W\d]+\.?,? )?(\d{1,2})(?:st|nd|rd|th|\.)?[-/ ]{1,2}([^\W\d]{3,9})\.?,?[-/ ]{1,2}(\d{4}|\d{2})" + _TIME
)
_NAMED_DAY = re.compile(
    r"^(?:[^\W\d]+\.?,? )?([^\W\d]{3,9})\.?[-/ ](\d{1,2})(?:st|nd|rd|th)?,?[-/ ]{1,2}(\d{4})" + _TIME
)
# Days since the end of 1899, as spreadsheets count, with the time of day behind the point: from 1990 to 2099.
_SERIAL = re.compile(r"^(3[2-9]\d{3}|[4-6]\d{4}|7[0-2]\d{3})(?:[.,]\d+)?$")


def order_of(texts: Iterable[str]) -> tuple[str, bool]:
    """Return (which stands first, whether a person has to say it), judged by all dates of a table together.

    13/05/2024 can only have the day first. ("", False) means that no date can be read in two ways.
    """
    found, day_first, month_first = False, False, False
    for text in texts:
        if match := _EITHER.match(text.strip()):
            found = True
            day_first |= int(match[1]) > 12
            month_first |= int(match[2]) > 12
    if not found:
        return "", False
    if day_first == month_first:
        return "", True
    return (DAY_FIRST if day_first else MONTH_FIRST), False


def read_date(text: str, order: str, today: dt.date) -> dt.date | None:
    """Return the day; None for an empty cell; CellError for what is no day, in the future, or before 1990."""
    text = " ".join(text.split())
    if not text:
        return None
    day = _day(text, order, today)
    if day > today:
        raise CellError(_("This day is in the future."))
    if day < EARLIEST:
        raise CellError(_("This day is before 1990."))
    return day


def _day(text: str, order: str, today: dt.date) -> dt.date:
    if match := _ISO.match(text):
        return _made(match[1], match[2], match[3], today)
    if match := _DOTTED.match(text):
        return _made(match[3], match[2], match[1], today)
    if match := _EITHER.match(text):
        day, month = (match[2], match[1]) if order == MONTH_FIRST else (match[1], match[2])
        return _made(match[3], month, day, today)
    if match := _DAY_NAMED.match(text):
        return _named(match[3], match[2], match[1], today)
    if match := _NAMED_DAY.match(text):
        return _named(match[3], match[1], match[2], today)
    if match := _SERIAL.match(text):
        return dt.date(1899, 12, 30) + dt.timedelta(days=int(match[1]))
    raise CellError(_("This is no day. Write it like 2024-05-31, with its year."))


def _named(year: str, name: str, day: str, today: dt.date) -> dt.date:
    month = month_number(name)
    if month is None:
        raise CellError(_("“%(name)s” is no month that is known here. Write the day like 2024-05-31.") % {"name": name})
    return _made(year, str(month), day, today)


def _made(year: str, month: str, day: str, today: dt.date) -> dt.date:
    number = int(year)
    if len(year) == 2:
        # 24 is this century, 97 the last: nobody trained in the future.
        number += 2000 if number <= today.year % 100 else 1900
    try:
        return dt.date(number, int(month), int(day))
    except ValueError as error:
        raise CellError(_("There is no such day.")) from error
