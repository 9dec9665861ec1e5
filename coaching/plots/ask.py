"""Which stretch of time and which subject a page of plots was asked for."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from accounts.models import Client
from coaching.models import WeekSummary
from coaching.recompute.calendar import WEEK, week_of
from coaching.why.links import why_link

# A quarter, half a year, a year: never the whole history, so that a page costs the same after years.
LENGTHS = (13, 26, 52)
USUAL = 26


@dataclass(frozen=True)
class Ask:
    """`last` is the Monday of the last week shown, `weeks` how many; `exercise` and `group` as typed into the address.

    Loads are shown in `unit`, that of the reader; `at_desk`: rows lead to the coach's pages.
    """

    client: Client
    unit: str
    today: dt.date
    weeks: int = USUAL
    last: dt.date = dt.date.min
    exercise: str = ""
    group: str = ""
    at_desk: bool = True

    @property
    def first(self) -> dt.date:
        return self.last - WEEK * (self.weeks - 1)

    @property
    def end(self) -> dt.date:
        """The last day shown."""
        return min(self.last + WEEK - dt.timedelta(days=1), self.today)

    @property
    def earlier(self) -> dt.date:
        return self.last - WEEK * self.weeks

    @property
    def later(self) -> dt.date | None:
        """The last week of the stretch that follows; None when this one reaches to today."""
        this_week = week_of(self.today)
        return None if self.last >= this_week else min(self.last + WEEK * self.weeks, this_week)

    def why(self, kind: str, *key: object) -> str:
        """Return where the answer to why stands for this reader; days are written as in ISO 8601."""
        return why_link(kind, *key, client_id=self.client.pk if self.at_desk else None)

    def summaries(self, *fields: str) -> list[WeekSummary]:
        """Return the weeks' rows, oldest first, with these fields only, in one query."""
        rows = WeekSummary.objects.filter(client=self.client, week__gte=self.first, week__lte=self.last)
        return list(rows.only("week", "as_of", *fields).order_by("week"))


def read_ask(client: Client, unit: str, query: Mapping[str, str], *, at_desk: bool) -> Ask:
    """Read the address's query; what makes no sense counts as not asked for."""
    today = client.user.today()
    try:
        last = week_of(min(dt.date.fromisoformat(query.get("until", "")), today))
        last = max(last, dt.date(2000, 1, 3))
    except ValueError:
        last = week_of(today)
    asked = query.get("weeks", "")
    weeks = int(asked) if asked in map(str, LENGTHS) else USUAL
    return Ask(client, unit, today, weeks, last, query.get("exercise", ""), query.get("group", ""), at_desk)
