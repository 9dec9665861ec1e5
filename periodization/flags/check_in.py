"""Check-ins that stay below the client's own usual."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import median

from periodization.flags.facts import CheckInFact, ClientHistory
from periodization.flags.flag import Flag, FlagRule
from periodization.flags.thresholds import Thresholds
from periodization.readiness import MAD_TO_SD
from periodization.rules import Rule

RULE = Rule("check_in.below_own_baseline", 1, "items: McLean 2010; windows, prior spread and limits chosen")


@dataclass(frozen=True, slots=True)
class Usual:
    """The client's own baseline of totals."""

    median: float
    spread: float


def usual(totals: Sequence[float], t: Thresholds) -> Usual:
    """Return median and spread of earlier totals.

    The spread is the client's own MAD, drawn towards a common one as long as there are few check-ins: with whole
    points a MAD jumps between 1 and 2, which would make one client twice as alarming as the next for no reason.
    """
    middle = median(totals)
    own = MAD_TO_SD * median(abs(x - middle) for x in totals)
    n, prior = len(totals), t.check_in_prior_count
    return Usual(middle, math.sqrt((n * own**2 + prior * t.check_in_prior_spread**2) / (n + prior)))


def check(history: ClientHistory, today: date, t: Thresholds) -> Iterator[Flag]:
    """Yield at most one flag: the recent check-ins lie, on average, below the median of those before them, the latest
    of them too."""
    cut = today - timedelta(t.check_in_recent_days)
    ordered = sorted(history.check_ins, key=lambda c: (c.day, c.id))
    before = [total(c) for c in ordered if c.day <= cut]
    recent = [c for c in ordered if c.day > cut]
    if len(recent) < t.check_in_recent_minimum or len(before) < t.check_in_baseline_minimum:
        return
    base = usual(before, t)
    mean = _distance(recent, base)
    latest = [c for c in recent if c.day > today - timedelta(t.check_in_latest_days)]
    if mean > t.check_in_watch or not latest or _distance(latest, base) > t.check_in_latest:
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
        values={"mean_distance": round(mean, 3), "spread": round(base.spread, 3), "baseline_count": len(before)},
        thresholds={
            "watch": t.check_in_watch,
            "act": t.check_in_act,
            "latest": t.check_in_latest,
            "recent_days": t.check_in_recent_days,
            "recent_minimum": t.check_in_recent_minimum,
            "baseline_days": t.check_in_baseline_days,
            "baseline_minimum": t.check_in_baseline_minimum,
        },
        weight=-mean,
    )


def total(c: CheckInFact) -> float:
    """Sum of the five items, 5 to 25."""
    return c.fatigue + c.sleep + c.soreness + c.stress + c.mood


def _distance(some: Sequence[CheckInFact], base: Usual) -> float:
    return (math.fsum(total(c) for c in some) / len(some) - base.median) / base.spread


FLAG_RULE = FlagRule(RULE, "check_in", lambda t: t.check_in_baseline_days + t.check_in_recent_days, check)
