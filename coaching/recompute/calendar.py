"""Weeks of a client's calendar, and how far one day's log can reach."""

import datetime as dt
from collections.abc import Iterable

WEEK = dt.timedelta(days=7)
# The longest look back of any rule (70 days, see flags.Thresholds), in whole weeks.
# A week's row sees nothing older, so the cost of a recompute depends on the week and not on the years of history.
LOOKBACK = dt.timedelta(weeks=10)
# A body mass older than this is doubtful, and counts as unknown.
MASS_VALID = dt.timedelta(weeks=16)
# Targets are written onto what is planned for the next two weeks, and onto what was left undone since last Monday.
HORIZON = dt.timedelta(weeks=2)
# The reason of a request that follows a change of the plan or the library (logbook/receivers.py).
PLAN = "plan"
# Past training was brought in, or taken back: it names only its first day, too (logbook/services/past_save.py).
PAST = "past"
FOR_EVER = dt.timedelta(days=36_525)
# Weeks are loaded and computed at most this many at a time: it bounds the memory, not the result.
LONGEST_RUN = 26


def week_of(day: dt.date) -> dt.date:
    """Return the Monday of the week that holds `day`."""
    return day - dt.timedelta(days=day.weekday())


def weeks_from(first: dt.date, last: dt.date) -> list[dt.date]:
    """Return the Mondays of the weeks from that of `first` to that of `last`, both included."""
    monday, end = week_of(first), week_of(last)
    return [monday + WEEK * n for n in range((end - monday).days // 7 + 1)] if monday <= end else []


def reached_by(changes: Iterable[tuple[dt.date, dt.timedelta]], today: dt.date) -> set[dt.date]:
    """Return the weeks whose rows can differ after changes, each given as (day, how long it is looked back at)."""
    reached: set[dt.date] = set()
    for day, span in changes:
        reached |= set(weeks_from(min(day, today), min(day + span, today)))
    return reached


def reach_of(reason: str) -> dt.timedelta:
    """Return how long a change of this kind is looked back at; `reason` is that of its recompute request.

    A change of the plan, of what an exercise counts for, or of the past names only its first day: it may touch any
    day after.
    """
    if reason in (PLAN, PAST):
        return FOR_EVER
    return LOOKBACK + MASS_VALID if "mass" in reason else LOOKBACK


def runs_of(weeks: list[dt.date]) -> list[list[dt.date]]:
    """Cut ascending Mondays into runs without a hole, none longer than LONGEST_RUN."""
    runs: list[list[dt.date]] = []
    for monday in weeks:
        if runs and monday - runs[-1][-1] == WEEK and len(runs[-1]) < LONGEST_RUN:
            runs[-1].append(monday)
        else:
            runs.append([monday])
    return runs


def as_of(monday: dt.date, today: dt.date) -> dt.date:
    """Return the day on which a week's row was made, as far as it matters: today, and once the week is over the Monday
    after it. So a row made on a Sunday, when the week may still bring a set, differs from the final one."""
    return min(monday + WEEK, today)


def last_day(monday: dt.date, today: dt.date) -> dt.date:
    """Return the last day whose log a week's row may know: its Sunday, or today while the week runs."""
    return min(monday + WEEK - dt.timedelta(days=1), today)
