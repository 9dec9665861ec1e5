"""Check-ins that stay below the client's own usual."""

from collections.abc import Iterator
from datetime import date, timedelta
from math import fsum

from periodization.flags.facts import CheckInFact, ClientHistory
from periodization.flags.flag import Flag, FlagRule
from periodization.flags.thresholds import Thresholds
from periodization.readiness import CheckIn, readiness
from periodization.rules import Rule

RULE = Rule("check_in.below_own_baseline", 1, "items: McLean 2010; windows and limit chosen")


def check(history: ClientHistory, today: date, t: Thresholds) -> Iterator[Flag]:
    """Yield at most one flag: the recent check-ins lie, on average, below the median of those before them."""
    cut = today - timedelta(t.check_in_recent_days)
    ordered = sorted(history.check_ins, key=lambda c: (c.day, c.id))
    before = [_plain(c) for c in ordered if c.day <= cut]
    recent = [c for c in ordered if c.day > cut]
    if len(recent) < t.check_in_recent_minimum:
        return
    window = t.check_in_baseline_days + t.check_in_recent_days
    found = [readiness(_plain(c), before, window, t.check_in_baseline_minimum) for c in recent]
    distances = [r.distance for r in found if r.distance is not None]
    if len(distances) < len(recent):
        return
    mean = fsum(distances) / len(distances)
    if mean > t.check_in_mean:
        return
    yield Flag(
        RULE.id,
        RULE.version,
        "check_in",
        "watch",
        "client",
        "",
        opened_on=recent[0].day,
        evidence_ids=tuple(c.id for c in recent),
        code="check_ins_below",
        params={
            "count": len(recent),
            "mean": round(fsum(r.total for r in found) / len(found), 1),
            "median": found[0].median or 0.0,
        },
        clears_code="clears_check_in",
        values={"mean_distance": round(mean, 3)},
        thresholds={
            "mean_distance": t.check_in_mean,
            "recent_days": t.check_in_recent_days,
            "recent_minimum": t.check_in_recent_minimum,
            "baseline_minimum": t.check_in_baseline_minimum,
        },
    )


def _plain(c: CheckInFact) -> CheckIn:
    return CheckIn(c.day, c.fatigue, c.sleep, c.soreness, c.stress, c.mood)


FLAG_RULE = FlagRule(RULE, "check_in", lambda t: t.check_in_baseline_days + t.check_in_recent_days, check)
