"""Check-ins that stay below the client's own usual."""

import math
from collections.abc import Iterator
from datetime import date, timedelta

from periodization.flags.facts import ClientHistory
from periodization.flags.flag import Flag, FlagRule
from periodization.flags.thresholds import Thresholds
from periodization.readiness import baseline, total
from periodization.rules import Rule

RULE = Rule("check_in.below_own_baseline", 3, "items: McLean 2010; windows, prior spread and limits chosen")


def check(history: ClientHistory, today: date, t: Thresholds) -> Iterator[Flag]:
    """Yield at most one flag: the recent check-ins lie, on average, below the median of those before them, the latest
    of them too."""
    cut = today - timedelta(t.check_in_recent_days)
    ordered = sorted(history.check_ins, key=lambda c: (c.day, c.id))
    recent = [c for c in ordered if c.day > cut]
    base = baseline(ordered, cut + timedelta(1), t.check_in_usual)
    if base is None or len(recent) < t.check_in_recent_minimum:
        return
    mean = base.distance(recent)
    latest = [c for c in recent if c.day > today - timedelta(t.check_in_latest_days)]
    if mean > t.check_in_sign or not latest or base.distance(latest) > t.check_in_latest:
        return
    yield Flag(
        RULE.id,
        RULE.version,
        "check_in",
        "act" if mean <= t.check_in_act else "watch",
        "client",
        "",
        opened_on=recent[0].day,
        evidence_ids=tuple(c.id for c in recent),
        code="check_ins_below",
        params={
            "count": len(recent),
            "mean": round(math.fsum(total(c) for c in recent) / len(recent), 1),
            "median": base.median,
        },
        clears_code="clears_check_in",
        values={"mean_distance": round(mean, 3), "spread": round(base.spread, 3), "baseline_count": base.count},
        thresholds={
            "sign": t.check_in_sign,
            "watch": t.check_in_watch,
            "act": t.check_in_act,
            "latest": t.check_in_latest,
            "recent_days": t.check_in_recent_days,
            "recent_minimum": t.check_in_recent_minimum,
            "baseline_days": t.check_in_usual.days,
            "baseline_minimum": t.check_in_usual.minimum,
        },
        weight=-mean,
        quiet=mean > t.check_in_watch,
    )


FLAG_RULE = FlagRule(RULE, "check_in", lambda t: t.check_in_usual.days + t.check_in_recent_days, check)
