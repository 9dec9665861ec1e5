"""Session-RPE load, monotony, strain and moving averages: description only.

No number here drives a flag: the acute:chronic ratio did no better than one with random denominators (Impellizzeri
2021), and monotony is always low when there are rest days, as there are in every lifting week.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import fmean

from periodization.rules import Reason, Rule

RULE = Rule("load.session_rpe", 1, "Foster 1998, 2001; Williams 2017 for the moving averages")
ACUTE_DAYS = 7
CHRONIC_DAYS = 28


@dataclass(frozen=True, slots=True)
class LoadDescription:
    """The last day's moving averages and the last seven days' figures, in arbitrary units (RPE x minutes).

    `ratio` and `monotony` are None where they are not defined.
    """

    week_load: float
    monotony: float | None
    strain: float | None
    acute: float
    chronic: float
    ratio: float | None
    notes: tuple[Reason, ...]


def session_load(rpe: float, minutes: float) -> float:
    """Return session RPE (CR-10, 0 to 10) x minutes. Source: Foster 2001."""
    if not 0 <= rpe <= 10:
        raise ValueError(f"A session RPE is 0 to 10, not {rpe}.")
    if not (math.isfinite(minutes) and minutes >= 0):
        raise ValueError(f"A duration must be zero or more, not {minutes}.")
    return rpe * minutes


def daily_series(loads: Iterable[tuple[date, float]], first: date, last: date) -> tuple[float, ...]:
    """Add up the loads per day from `first` to `last`, both included. A day of rest is 0, never missing."""
    days = (last - first).days + 1
    totals: dict[date, list[float]] = {}
    for day, load in loads:
        totals.setdefault(day, []).append(load)
    return tuple(math.fsum(totals.get(first + timedelta(n), ())) for n in range(days))


def monotony(daily: Sequence[float], ddof: int = 1) -> float | None:
    """Return mean / SD of a week's days. None, never 0, when all days are equal.

    The divisor is n - 1: Foster's own printed example does not settle which he used.
    """
    if len(daily) < 2 or min(daily) == max(daily):
        return None
    mean = fmean(daily)
    variance = math.fsum((x - mean) ** 2 for x in daily) / (len(daily) - ddof)
    return mean / math.sqrt(variance) if variance > 0 else None


def strain(week_load: float, week_monotony: float | None) -> float | None:
    """Return weekly load x monotony; None when monotony is."""
    return None if week_monotony is None else week_load * week_monotony


def ewma(series: Sequence[float], span: int) -> tuple[float, ...]:
    """Return the exponentially weighted average per day, weight 2 / (span + 1), first value as seed (Williams 2017)."""
    weight = 2 / (span + 1)
    averages: list[float] = []
    for x in series:
        averages.append(x if not averages else averages[-1] + weight * (x - averages[-1]))
    return tuple(averages)


def rolling_ratio(series: Sequence[float], coupled: bool = True) -> float | None:
    """Return the mean of the last 7 days over that of the last 28, or of the 28 before them when not `coupled`.

    Coupled it cannot exceed 4, whatever the training. None with too few days or no load to divide by.
    """
    end = len(series) if coupled else len(series) - ACUTE_DAYS
    if end < CHRONIC_DAYS:
        return None
    chronic = fmean(series[end - CHRONIC_DAYS : end])
    return fmean(series[-ACUTE_DAYS:]) / chronic if chronic > 0 else None


def describe_load(daily: Sequence[float]) -> LoadDescription | None:
    """Describe a daily series that ends on the day of interest; None when it is empty."""
    if not daily:
        return None
    week = daily[-ACUTE_DAYS:]
    value = monotony(week) if len(week) == ACUTE_DAYS else None
    acute, chronic = ewma(daily, ACUTE_DAYS)[-1], ewma(daily, CHRONIC_DAYS)[-1]
    notes = [Reason("load_is_description")]
    if len(week) == ACUTE_DAYS and value is None:
        notes.append(Reason("monotony_undefined"))
    total = math.fsum(week)
    ratio = acute / chronic if chronic > 0 else None
    return LoadDescription(total, value, strain(total, value), acute, chronic, ratio, tuple(notes))
