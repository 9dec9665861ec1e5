"""Planned sessions that were not done."""

from collections.abc import Iterator
from datetime import date, timedelta

from periodization.flags.facts import ClientHistory
from periodization.flags.flag import Flag, FlagRule
from periodization.flags.thresholds import Thresholds
from periodization.rules import Rule

RULE = Rule("sessions.missed", 1, "counts and window chosen")


def check(history: ClientHistory, today: date, t: Thresholds) -> Iterator[Flag]:
    """Yield at most one flag for the planned sessions before today; today's may still be done."""
    planned = sorted((p for p in history.planned if p.day < today), key=lambda p: (p.day, p.session_id))
    missed = [p for p in planned if not p.done]
    lately = [p for p in missed if p.day >= today - timedelta(t.missed_recent_days)]
    if len(missed) < t.missed_watch:
        return
    yield Flag(
        RULE.id,
        RULE.version,
        "attendance",
        "act" if len(missed) >= t.missed_act else "watch",
        "client",
        "",
        opened_on=missed[0].day,
        evidence_ids=tuple(p.session_id for p in missed),
        code="sessions_missed",
        params={"missed": len(missed), "planned": len(planned), "days": t.missed_days},
        clears_code="clears_missed",
        clears_params={"under": t.missed_watch, "days": t.missed_days},
        values={"missed": len(missed), "planned": len(planned), "lately": len(lately)},
        thresholds={"watch": t.missed_watch, "act": t.missed_act, "days": t.missed_days},
    )


FLAG_RULE = FlagRule(RULE, "attendance", lambda t: t.missed_days, check)
