"""Which day it is where."""

import datetime as dt
import zoneinfo
from functools import cache

# The calendar's days begin first at UTC+14 and last at UTC-12.
LAST = dt.timezone(-dt.timedelta(hours=12))


@cache
def every_zone() -> tuple[str, ...]:
    """Return the names of all zones; listing them reads a folder of files."""
    return tuple(sorted(zoneinfo.available_timezones()))


def zones_before(day: dt.date, now: dt.datetime) -> list[str]:
    """Return the zones in whose calendar `day` has not begun yet at `now` (a moment with a zone)."""
    if now.astimezone(LAST).date() >= day:
        return []
    return [name for name in every_zone() if now.astimezone(zoneinfo.ZoneInfo(name)).date() < day]
