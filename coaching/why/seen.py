"""What the rules saw in a client's week, read anew: the entries behind flags and targets, in a bounded stretch."""

import datetime as dt
from dataclasses import dataclass

from coaching.models import WeekSummary
from coaching.recompute import facts
from coaching.recompute.calendar import last_day
from coaching.recompute.load import load_log
from coaching.recompute.rows import Log
from coaching.recompute.strength import estimate_sets
from coaching.why.links import Reader
from periodization.flags import ClientHistory, Flag, WeekVolume, evaluate


@dataclass(frozen=True)
class Seen:
    """The log of a week with its look back, the facts made of it, and the flags that they raise on `until`."""

    log: Log
    facts: ClientHistory
    until: dt.date
    flags: tuple[Flag, ...]


def seen_in(reader: Reader, summary: WeekSummary) -> Seen:
    """Read the week as its row saw it: a fixed number of queries, whatever the history."""
    log = load_log(reader.client, summary.week, summary.week, summary.as_of)
    until = last_day(summary.week, summary.as_of)
    volume = tuple(
        WeekVolume(summary.week, slug, row["done"], row["floor"], row["ceiling"])
        for slug, row in sorted(summary.volume["groups"].items())
        if row["done"] and row["floor"] is not None
    )
    found = facts.history(log, estimate_sets(log), summary.week, until, reader.client.user.zone, volume)
    return Seen(log, found, until, evaluate(found, until))
