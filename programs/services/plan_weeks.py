"""Some weeks of a client's copy of a program: those from today on, and the way to the others."""

import datetime as dt
from dataclasses import dataclass
from itertools import groupby

from django.db.models import Max, Min

from programs.models import Assignment, PlannedSession

# Weeks shown at a time: a block's usual length, and little enough to read.
AT_ONCE = 4
WEEK = dt.timedelta(days=7)


@dataclass(frozen=True, slots=True)
class PlanWeek:
    """The sessions of one calendar week; `is_now` where today falls into it."""

    monday: dt.date
    sessions: list[PlannedSession]
    is_now: bool


@dataclass(frozen=True, slots=True)
class PlanWeeks:
    """`earlier` and `later` are Mondays to go to (None: there is nothing); `now` is where the page opens by itself,
    None when it is open there."""

    weeks: list[PlanWeek]
    earlier: dt.date | None
    later: dt.date | None
    now: dt.date | None


def monday_of(day: dt.date) -> dt.date:
    return day - dt.timedelta(days=day.weekday())


def plan_weeks(assignment: Assignment, today: dt.date, wanted: dt.date | None) -> PlanWeeks:
    """Return the weeks from `wanted` on, or from this one: a copy that has not begun from its first, one that is over
    its last ones (four queries)."""
    ends = assignment.sessions.aggregate(first=Min("date"), last=Max("date"))
    if ends["first"] is None:
        return PlanWeeks([], None, None, None)
    first, last = monday_of(ends["first"]), monday_of(ends["last"])
    opens = monday_of(today)
    if opens > last:
        opens = last - (AT_ONCE - 1) * WEEK
    opens = max(first, opens)
    start = min(max(first, monday_of(wanted)), last) if wanted else opens
    end = start + AT_ONCE * WEEK
    rows = assignment.sessions.filter(date__gte=start, date__lt=end)
    rows = rows.select_related("performed").prefetch_related("slots__exercise").order_by("date", "pk")
    weeks = [
        PlanWeek(monday, list(sessions), monday == monday_of(today))
        for monday, sessions in groupby(rows, key=lambda row: monday_of(row.date))
    ]
    return PlanWeeks(
        weeks=weeks,
        earlier=max(first, start - AT_ONCE * WEEK) if start > first else None,
        later=end if end <= last else None,
        now=opens if start != opens else None,
    )
