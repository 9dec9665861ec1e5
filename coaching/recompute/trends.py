"""The trend of each exercise as it stood at the end of a week."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import Any
from uuid import UUID

from coaching.recompute.calendar import LOOKBACK
from coaching.recompute.strength import SetEstimate
from periodization.rules import Reason
from periodization.trend import RULE, Interval, TrendPoint, fit_trend

RECENT = 12  # sessions


def trends_json(
    points: Mapping[tuple[UUID, int], SetEstimate],
    estimates: Iterable[SetEstimate],
    monday: dt.date,
    as_of: dt.date,
) -> dict[str, Any]:
    """Return level, weekly rate and statement per exercise trained in the week's look back.

    An exercise none of whose sets can be estimated from has no level, and the reason of its latest set as statement.
    """
    series: dict[int, list[TrendPoint]] = defaultdict(list)
    for (_, exercise_id), one in points.items():
        if one.point is not None and monday - LOOKBACK <= one.row.date <= as_of:
            series[exercise_id].append(one.point)
    result = {}
    for exercise_id, found in sorted(series.items()):
        trend = fit_trend(found, as_of)
        result[str(exercise_id)] = {
            "points": len(found),
            "recent": _recent(found),
            "level_kg": _interval(trend.level_kg),
            "slope_percent_week": _interval(trend.slope_percent_week),
            **reason_json(trend.reason),
            "rule": [RULE.id, RULE.version],
        }
    return result | _without(estimates, series, monday, as_of)


def _recent(points: Sequence[TrendPoint]) -> list[float]:
    """Return the latest e1RMs, kg, oldest first: the board draws them small."""
    return [round(point.e1rm_kg, 1) for point in sorted(points, key=lambda point: point.day)[-RECENT:]]


def _without(
    estimates: Iterable[SetEstimate], series: Mapping[int, Sequence[TrendPoint]], monday: dt.date, as_of: dt.date
) -> dict[str, Any]:
    latest: dict[int, SetEstimate] = {}
    for one in estimates:
        if monday - LOOKBACK <= one.row.date <= as_of and one.row.exercise_id not in series:
            latest[one.row.exercise_id] = one
    return {
        str(exercise_id): {
            "points": 0,
            "level_kg": None,
            "slope_percent_week": None,
            **reason_json(Reason(f"estimate_{one.why_not}")),
            "rule": [RULE.id, RULE.version],
        }
        for exercise_id, one in sorted(latest.items())
        if one.why_not
    }


def _interval(interval: Interval | None) -> list[float] | None:
    return None if interval is None else [interval.low, interval.middle, interval.high]


def reason_json(reason: Reason) -> dict[str, Any]:
    """Return a reason as rows keep it."""
    return {"code": reason.code, "params": dict(reason.params)}
