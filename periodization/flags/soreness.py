"""Soreness that lasts into the next exposure of the same muscle group."""

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise

from periodization.flags.facts import CheckInFact, ClientHistory
from periodization.flags.flag import Flag, FlagRule
from periodization.flags.thresholds import Thresholds
from periodization.rules import Rule

RULE = Rule("soreness.into_next_exposure", 1, "the number of exposures and the gap are chosen")


def check(history: ClientHistory, today: date, t: Thresholds) -> Iterator[Flag]:
    """Yield a flag per group that was still reported sore on days when it was trained again."""
    days: dict[str, set[date]] = {}
    for one in history.exposures:
        for group in one.groups:
            days.setdefault(group, set()).add(one.day)
    reports: dict[date, CheckInFact] = {c.day: c for c in sorted(history.check_ins, key=lambda c: (c.day, c.id))}
    since = today - timedelta(t.soreness_days)
    for group in sorted(days):
        trained = sorted(days[group])
        again = [
            reports[day]
            for previous, day in pairwise(trained)
            if day > since
            and (day - previous).days <= t.soreness_gap_days
            and day in reports
            and group in reports[day].sore_groups
        ]
        if len(again) < t.soreness_exposures:
            continue
        yield Flag(
            RULE.id,
            RULE.version,
            "soreness",
            "watch",
            "group",
            group,
            opened_on=again[0].day,
            evidence_ids=tuple(c.id for c in again),
            code="sore_into_next_exposure",
            params={"count": len(again), "days": t.soreness_days},
            clears_code="clears_soreness",
            values={"count": len(again)},
            thresholds={
                "exposures": t.soreness_exposures,
                "days": t.soreness_days,
                "gap_days": t.soreness_gap_days,
            },
            weight=t.soreness_weight,
        )


FLAG_RULE = FlagRule(RULE, "soreness", lambda t: t.soreness_days + t.soreness_gap_days, check)
