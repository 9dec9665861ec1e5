"""The daily check-in against the client's own usual answers. There is no published absolute cut-off, and none here."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import median

from periodization.rules import Reason, Rule

RULE = Rule("readiness.own_baseline", 1, "items: McLean 2010; window, minimum and cut chosen")
ITEMS = ("fatigue", "sleep", "soreness", "stress", "mood")
# Makes a median absolute deviation comparable to a standard deviation of normal data.
MAD_TO_SD = 1.4826
# The total moves in whole points, so a spread under one point is only a sign of few different answers.
SMALLEST_SPREAD = 1.0


@dataclass(frozen=True, slots=True)
class CheckIn:
    """Five items, 1 (worst) to 5 (best). `soreness` 5 is 'feeling great', 1 is 'very sore'."""

    day: date
    fatigue: float
    sleep: float
    soreness: float
    stress: float
    mood: float

    def __post_init__(self) -> None:
        for name in ITEMS:
            if not 1 <= getattr(self, name) <= 5:
                raise ValueError(f"{name} must be 1 to 5.")

    @property
    def total(self) -> float:
        """Sum of the five items, 5 to 25."""
        return self.fatigue + self.sleep + self.soreness + self.stress + self.mood


@dataclass(frozen=True, slots=True)
class Readiness:
    """A check-in compared: `distance` is in robust SDs from the median, negative is worse; None without a baseline.

    `items` maps each item to its distance in points from its own median.
    """

    day: date
    total: float
    state: str
    reason: Reason
    baseline_count: int
    median: float | None = None
    spread: float | None = None
    distance: float | None = None
    items: tuple[tuple[str, float], ...] = ()


def readiness(
    today: CheckIn,
    history: Sequence[CheckIn],
    window_days: int = 42,
    minimum_count: int = 7,
    cut: float = 1.5,
) -> Readiness:
    """Compare `today` with the check-ins of the `window_days` before it; later or older ones change nothing.

    States: no_baseline (under `minimum_count` earlier check-ins), below or above (`cut` robust SDs away), usual.
    """
    start = today.day - timedelta(window_days)
    past = [c for c in history if start <= c.day < today.day]
    if len(past) < minimum_count:
        reason = Reason("check_in_no_baseline", {"count": len(past), "minimum": minimum_count})
        return Readiness(today.day, today.total, "no_baseline", reason, len(past))
    totals = [c.total for c in past]
    usual = median(totals)
    spread = max(SMALLEST_SPREAD, MAD_TO_SD * median(abs(t - usual) for t in totals))
    distance = (today.total - usual) / spread
    state = "below" if distance <= -cut else "above" if distance >= cut else "usual"
    items = tuple((n, getattr(today, n) - median(getattr(c, n) for c in past)) for n in ITEMS)
    reason = Reason(f"check_in_{state}", {"total": today.total, "median": usual})
    return Readiness(today.day, today.total, state, reason, len(past), usual, spread, distance, items)
