"""The daily check-in against the client's own usual answers. There is no published absolute cut-off, and none here."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import median
from typing import Protocol

from periodization.rules import Reason, Rule

RULE = Rule("readiness.own_baseline", 2, "items: McLean 2010; window, minimum, prior spread and cut chosen")
ITEMS = ("fatigue", "sleep", "soreness", "stress", "mood")
# Makes a median absolute deviation comparable to a standard deviation of normal data.
MAD_TO_SD = 1.4826


class Answers(Protocol):
    """A day's five items, 1 (worst) to 5 (best). `soreness` 5 is 'feeling great', 1 is 'very sore'."""

    @property
    def day(self) -> date: ...
    @property
    def fatigue(self) -> float: ...
    @property
    def sleep(self) -> float: ...
    @property
    def soreness(self) -> float: ...
    @property
    def stress(self) -> float: ...
    @property
    def mood(self) -> float: ...


@dataclass(frozen=True, slots=True)
class CheckIn:
    """Five items of one day; anything off the scale is a ValueError."""

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


@dataclass(frozen=True, slots=True)
class BaselineSettings:
    """CHOSEN, every number. `days` before the day that is compared; the spread is drawn towards `prior_spread` points
    as by `prior_count` check-ins. `cut`: so many spreads away a single day is not usual."""

    days: int = 60
    minimum: int = 7
    prior_spread: float = 2
    prior_count: int = 40
    cut: float = 1.5


DEFAULT = BaselineSettings()


@dataclass(frozen=True, slots=True)
class Baseline:
    """The client's own usual: median and spread of `count` totals, and each item's median.

    `own_spread` is the median absolute deviation as an SD; `spread` is what distances are divided by.
    """

    count: int
    median: float
    own_spread: float
    spread: float
    items: tuple[tuple[str, float], ...]

    def distance(self, some: Sequence[Answers]) -> float:
        """Return how many spreads the mean total of `some` lies from the median; negative is worse."""
        return (math.fsum(total(c) for c in some) / len(some) - self.median) / self.spread


@dataclass(frozen=True, slots=True)
class Readiness:
    """A check-in compared: `distance` is in spreads from the median, negative is worse; None without a baseline.

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


def total(answers: Answers) -> float:
    """Sum of the five items, 5 to 25."""
    return answers.fatigue + answers.sleep + answers.soreness + answers.stress + answers.mood


def earlier(history: Iterable[Answers], before: date, settings: BaselineSettings = DEFAULT) -> list[Answers]:
    """Return the check-ins of the `settings.days` before the day `before`: the ones that make the usual."""
    start = before - timedelta(settings.days)
    return [c for c in history if start <= c.day < before]


def baseline(history: Iterable[Answers], before: date, settings: BaselineSettings = DEFAULT) -> Baseline | None:
    """Return the usual on the day `before`; None with under `settings.minimum` check-ins in its window.

    The spread is the client's own MAD, drawn towards a common one as long as there are few check-ins: with whole
    points a MAD jumps between 1 and 2, which would make one client twice as alarming as the next for no reason.
    """
    past = earlier(history, before, settings)
    if len(past) < settings.minimum:
        return None
    totals = [total(c) for c in past]
    middle = median(totals)
    own = MAD_TO_SD * median(abs(x - middle) for x in totals)
    n, prior = len(totals), settings.prior_count
    spread = math.sqrt((n * own**2 + prior * settings.prior_spread**2) / (n + prior))
    return Baseline(n, middle, own, spread, tuple((name, median(getattr(c, name) for c in past)) for name in ITEMS))


def readiness(today: Answers, history: Sequence[Answers], settings: BaselineSettings = DEFAULT) -> Readiness:
    """Compare `today` with the usual of the days before it; later or older check-ins change nothing.

    States: no_baseline (too few earlier check-ins), below or above (`settings.cut` spreads away), usual.
    """
    now, usual = total(today), baseline(history, today.day, settings)
    if usual is None:
        count = len(earlier(history, today.day, settings))
        reason = Reason("check_in_no_baseline", {"count": count, "minimum": settings.minimum})
        return Readiness(today.day, now, "no_baseline", reason, count)
    distance = usual.distance([today])
    state = "below" if distance <= -settings.cut else "above" if distance >= settings.cut else "usual"
    items = tuple((name, getattr(today, name) - middle) for name, middle in usual.items)
    reason = Reason(f"check_in_{state}", {"total": now, "median": usual.median})
    return Readiness(today.day, now, state, reason, usual.count, usual.median, usual.spread, distance, items)
