"""The trend's assumptions, all as arguments. SDs are of the natural logarithm, so 0.042 is about 4.2 %."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class TrendPoint:
    """One session's e1RM of one exercise in kg; `sd` is the SD of its logarithm as an observation."""

    day: date
    e1rm_kg: float
    sd: float


@dataclass(frozen=True, slots=True)
class TrendSettings:
    """Published: `typical_error` (median CV of a tested 1RM, Grgic 2020). Chosen: everything else.

    `level_sd_week`, `slope_sd_week`: how far strength and its weekly rate wander in a week.
    `slope_prior_sd`: weekly rate believed possible before any data. `learning_sd` is added to points in the first
    `learning_days` after the first exposure to an exercise: novices rose 9-11 % between their first two tests.
    `flat_limit`: growth under this rate a week is no growth that matters. `outlier_z`: a point further than
    this many SDs from what was expected counts less, as far as its distance exceeds it. `start_points`: the first
    days are held against their own median, and one more than `start_limit` off (0.5: half as much again, or two thirds)
    is left out of the level: at a start nothing is expected yet.
    """

    typical_error: float = 0.042
    level_sd_week: float = 0.004
    slope_sd_week: float = 0.0012
    slope_prior_sd: float = 0.010
    learning_days: int = 10
    learning_sd: float = 0.10
    minimum_points: int = 4
    minimum_days: int = 14
    flat_limit: float = 0.0075
    outlier_z: float = 4.0
    start_points: int = 5
    start_limit: float = 0.5
    z: float = 1.6448536269514722  # both tails together 10 %


DEFAULT_SETTINGS = TrendSettings()
