"""All exercises together under expectation: each is too noisy alone, their common part is not."""

import math
from collections.abc import Iterator
from datetime import date

from periodization.flags.expectation import Compared, by_exercise, compare, sessions_of
from periodization.flags.facts import ClientHistory
from periodization.flags.flag import Flag, FlagRule
from periodization.flags.thresholds import Thresholds
from periodization.rules import Rule

RULE = Rule("performance.overall_under_expected", 2, "inverse-variance mean over exercises and sessions; limits chosen")


def pooled(sessions: list[list[Compared]], day_sd: float) -> tuple[float, float]:
    """Return the mean gap (of the logarithm) over sessions, and its SD.

    Inside a session exercises are weighted by 1 / variance; what they share that day is added once per session.
    """
    weights, gaps = [], []
    for session in sessions:
        inside = [1 / c.sd**2 for c in session]
        gaps.append(math.fsum(w * c.gap for w, c in zip(inside, session, strict=True)) / math.fsum(inside))
        weights.append(1 / (1 / math.fsum(inside) + day_sd**2))
    mean = math.fsum(w * g for w, g in zip(weights, gaps, strict=True)) / math.fsum(weights)
    return mean, 1 / math.sqrt(math.fsum(weights))


def check(history: ClientHistory, today: date, t: Thresholds) -> Iterator[Flag]:
    """Yield at most one flag: the recent sessions are under expectation by more than noise, and by enough to matter."""
    groups = by_exercise(history.exposures).values()
    compared = [c for exposures in groups for c in compare(exposures, today, t.overall_days, t)]
    sessions = sessions_of(compared)
    if len(sessions) < t.overall_minimum_sessions or len(compared) < t.overall_minimum_exposures:
        return
    gap, sd = pooled(sessions, t.day_sd)
    percent, z = -100 * math.expm1(gap), gap / sd
    if z > -t.overall_sign:
        return
    act = z <= -t.overall_act and percent >= t.overall_act_percent
    ordered = [c for session in sessions for c in session]
    yield Flag(
        RULE.id,
        RULE.version,
        "performance",
        "act" if act else "watch",
        "client",
        "",
        opened_on=ordered[0].exposure.day,
        evidence_ids=tuple(i for c in ordered for i in c.evidence),
        code="performance_overall",
        params={"percent": round(percent, 1), "sessions": len(sessions), "exposures": len(compared)},
        clears_code="clears_performance_overall",
        values={"percent": round(percent, 3), "z": round(z, 3)},
        thresholds={
            "sign": -t.overall_sign,
            "watch": -t.overall_watch,
            "act": -t.overall_act,
            "act_percent": t.overall_act_percent,
            "minimum_sessions": t.overall_minimum_sessions,
            "minimum_exposures": t.overall_minimum_exposures,
            "day_sd": t.day_sd,
            "recent_days": t.overall_days,
        },
        weight=-z,
        quiet=z > -t.overall_watch,
    )


FLAG_RULE = FlagRule(RULE, "performance", lambda t: t.baseline_days, check)
