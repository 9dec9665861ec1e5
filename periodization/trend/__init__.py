"""The trend of e1RM per exercise, with its uncertainty."""

from periodization.trend.fit import RULE, Interval, Trend, TrendStep, expect, fit_trend
from periodization.trend.noise import (
    detectable_change,
    observation_sd,
    report_error,
    trend_point,
    typical_error,
)
from periodization.trend.settings import DEFAULT_SETTINGS, TrendPoint, TrendSettings

__all__ = [
    "DEFAULT_SETTINGS",
    "RULE",
    "Interval",
    "Trend",
    "TrendPoint",
    "TrendSettings",
    "TrendStep",
    "detectable_change",
    "expect",
    "fit_trend",
    "observation_sd",
    "report_error",
    "trend_point",
    "typical_error",
]
