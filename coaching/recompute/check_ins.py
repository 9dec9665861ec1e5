"""The week's check-ins, each against the client's own usual of the days before it: description, one day at a time."""

import datetime as dt
from collections.abc import Sequence
from typing import Any

from coaching.recompute.trends import reason_json
from periodization.flags import CheckInFact
from periodization.readiness import ITEMS, RULE, readiness


def check_ins_json(check_ins: Sequence[CheckInFact], monday: dt.date) -> dict[str, Any]:
    """Return what WeekSummary.check_ins keeps: the days from `monday` on, compared by the rule named with them.

    `check_ins` are those that the week may know, its look back included.
    """
    ordered = sorted(check_ins, key=lambda one: one.day)
    return {
        "days": [_day(one, ordered) for one in ordered if one.day >= monday],
        "rule": [RULE.id, RULE.version],
    }


def _day(one: CheckInFact, known: Sequence[CheckInFact]) -> dict[str, Any]:
    found = readiness(one, known)
    return {
        "id": one.id,
        "day": one.day.isoformat(),
        "total": found.total,
        "state": found.state,
        "median": found.median,
        "spread": found.spread,
        "distance": found.distance,
        "count": found.baseline_count,
        # Item: the answer, and how far it is from the client's own median of that item.
        "items": {name: [getattr(one, name), dict(found.items).get(name)] for name in ITEMS},
        **reason_json(found.reason),
    }
