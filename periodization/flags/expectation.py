"""What each exposure was expected to show, from the exposures before the recent stretch."""

import math
from collections import defaultdict
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

from periodization.flags.facts import Exposure, SetFact
from periodization.flags.thresholds import Thresholds
from periodization.trend import DEFAULT_SETTINGS, TrendPoint, expect, fit_trend

# The first sets compare best: how many follow changes with the plan, and each leaves the next one weaker.
SETS_COMPARED = 3
# People leave about one repetition more than they say (0.95, Halperin 2022), but not at failure. Uncorrected, every
# block that closes in on failure would look like growth, and the weeks after it like decline.
UNDERPREDICTION = 0.95


@dataclass(frozen=True, slots=True)
class Compared:
    """One exposure against its expectation. `gap` and `sd` are of the logarithm; a gap under 0 is weaker."""

    exposure: Exposure
    evidence: tuple[str, ...]
    observed_kg: float
    expected_kg: float
    low_kg: float
    gap: float
    sd: float


def by_exercise(exposures: tuple[Exposure, ...]) -> dict[str, list[Exposure]]:
    """Group by exercise, oldest first, without deload weeks: less was asked there, so less says nothing."""
    groups: dict[str, list[Exposure]] = defaultdict(list)
    for one in sorted(exposures, key=lambda e: (e.day, e.session_id)):
        if not one.deload:
            groups[one.exercise_id].append(one)
    return dict(sorted(groups.items()))


def point_of(exposure: Exposure) -> tuple[TrendPoint, tuple[str, ...]] | None:
    """Return the mean of the first sets that can be compared, and their ids; None when there is none.

    A set without RIR is left out: its estimate is too low by as many repetitions as were left, which is no decline.
    """
    usable = [s for s in exposure.sets if s.e1rm_kg is not None and s.sd is not None and s.rir is not None]
    first = [(_corrected(s), s.sd, s.set_id) for s in usable[:SETS_COMPARED] if s.e1rm_kg and s.sd]
    if not first:
        return None
    mean = math.fsum(log for log, _, _ in first) / len(first)
    return TrendPoint(exposure.day, math.exp(mean), min(sd for _, sd, _ in first)), tuple(i for _, _, i in first)


def _corrected(s: SetFact) -> float:
    """Return the logarithm of a set's e1RM with the repetitions that people leave unnoticed, each worth as in Epley."""
    unnoticed = UNDERPREDICTION * min(1.0, s.rir or 0.0)
    return math.log((s.e1rm_kg or 0.0) * (1 + unnoticed / (30 + s.reps + (s.rir or 0.0))))


def compare(exposures: list[Exposure], today: date, recent_days: int, t: Thresholds) -> list[Compared]:
    """Compare one exercise's recent exposures with the trend of those before; empty when there are too few before."""
    cut = today - timedelta(recent_days)
    points = [(one, point_of(one)) for one in exposures]
    before = [found[0] for one, found in points if found and one.day <= cut]
    recent = [(one, found) for one, found in points if found and one.day > cut]
    if not recent or len(before) < t.baseline_minimum:
        return []
    trend = fit_trend(before, max(p.day for p in before))
    result = []
    for one, (point, ids) in recent:
        interval = expect(trend, one.day, point.sd)
        if interval is None:
            continue
        sd = math.log(interval.high / interval.low) / (2 * DEFAULT_SETTINGS.z)
        gap = math.log(point.e1rm_kg / interval.middle)
        result.append(Compared(one, ids, point.e1rm_kg, interval.middle, interval.low, gap, sd))
    return result


def sessions_of(compared: list[Compared]) -> list[list[Compared]]:
    """Group by session, oldest first."""
    ordered = sorted(compared, key=lambda c: (c.exposure.day, c.exposure.session_id, c.exposure.exercise_id))
    return [list(g) for _, g in groupby(ordered, key=lambda c: (c.exposure.day, c.exposure.session_id))]
