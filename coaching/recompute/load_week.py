"""Session load of a week: description, which drives no flag."""

import datetime as dt
from typing import Any

from coaching.recompute.calendar import LOOKBACK
from coaching.recompute.rows import Log
from coaching.recompute.trends import reason_json
from periodization.session_load import RULE, daily_series, describe_load, session_load


def load_json(log: Log, monday: dt.date, as_of: dt.date) -> dict[str, Any]:
    """Return load, monotony, strain and moving averages up to `as_of`, and which sessions gave no figure.

    The week's days from Monday to `as_of` are its sum; monotony and averages look at the seven days up to `as_of`.
    """
    start = monday - LOOKBACK
    rated = [
        (row.id, row.date, session_load(row.session_rpe, row.minutes))
        for row in log.sessions
        if start <= row.date <= as_of and row.session_rpe is not None and row.minutes is not None
    ]
    in_week = [row for row in log.sessions if monday <= row.date <= as_of]
    described = describe_load(daily_series([(day, load) for _, day, load in rated], start, as_of)) if rated else None
    days = daily_series([(day, load) for _, day, load in rated], monday, as_of)
    return {
        "week": sum(days),
        "days": list(days),
        "monotony": described.monotony if described else None,
        "strain": described.strain if described else None,
        "acute": described.acute if described else None,
        "chronic": described.chronic if described else None,
        "notes": [reason_json(note) for note in described.notes] if described else [],
        "sessions": [[str(i), day.isoformat(), load] for i, day, load in rated if monday <= day],
        "unrated": [str(row.id) for row in in_week if row.session_rpe is None or row.minutes is None],
        "rule": [RULE.id, RULE.version],
    }
