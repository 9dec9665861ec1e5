"""What a slope's interval allows to be said. Never a comparison of two points."""

from periodization.rules import Reason
from periodization.trend.settings import TrendSettings


def statement(low: float, high: float, points: int, span_days: int, settings: TrendSettings) -> Reason:
    """Return the statement for a weekly rate between `low` and `high` percent from `points` days over `span_days`.

    Rising or falling: the whole interval lies on one side of zero. Flat (a plateau): it holds zero, and no growth that
    matters. Unclear: it holds both.
    """
    if points < settings.minimum_points or span_days < settings.minimum_days:
        return Reason("trend_too_few", {"points": points, "minimum": settings.minimum_points})
    if low > 0:
        code = "trend_rising"
    elif high < 0:
        code = "trend_falling"
    elif high < 100 * settings.flat_limit:
        code = "trend_flat"
    else:
        code = "trend_unclear"
    return Reason(code, {"low": round(low, 2), "high": round(high, 2)})
