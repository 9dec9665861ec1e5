"""Which times are believed."""

import datetime as dt
from typing import Any

from django.utils.translation import gettext as _

from logbook.operations.refused import Refused

# Chosen: a phone's clock may run this far ahead of the server's.
SKEW = dt.timedelta(minutes=5)
EARLIEST = dt.datetime(2000, 1, 1, tzinfo=dt.UTC)
# Chosen: longer than any training. What is typed in later than this was not typed in while training.
LONGEST_SESSION = dt.timedelta(hours=12)


def check_moment(moment: dt.datetime, now: dt.datetime, field: str) -> None:
    """Refuse a time in the future (beyond five minutes of clock skew) or before the year 2000."""
    if moment > now + SKEW:
        raise _refused("in_the_future", _("This time is in the future. Is the phone's clock right?"), field)
    if moment < EARLIEST:
        raise _refused("too_long_ago", _("This time is before the year 2000."), field)


def check_day(day: dt.date, today: dt.date, field: str) -> None:
    """Refuse a day after the client's own today, or before the year 2000."""
    if day > today:
        raise _refused("in_the_future", _("This day is in the future."), field)
    if day < EARLIEST.date():
        raise _refused("too_long_ago", _("This day is before the year 2000."), field)


def _refused(code: str, title: str, field: str) -> Refused:
    errors: dict[str, Any] = {field: [title]}
    return Refused(code, title, errors=errors)
