"""Where a series begins: a level that no single entry of the first ones can carry away.

Once there is a level, a point far from what was expected of it counts less. At the start there is nothing to expect, so
the first points are held against their own median, to both sides.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median_low

from periodization.trend.settings import TrendPoint, TrendSettings


@dataclass(frozen=True, slots=True)
class Start:
    """`level`: the logarithm of kg. `doubtful`: the places, from 0, of first points too far from it to be believed."""

    level: float
    doubtful: frozenset[int]


def start_of(points: Sequence[TrendPoint], settings: TrendSettings) -> Start:
    """Return the median of the first points, and which of them lie over `start_limit` from it.

    `points` are in order, one a day. Of an even number the lower of the two in the middle stands: of two points that
    contradict each other, the lighter is believed.
    """
    logs = [math.log(point.e1rm_kg) for point in points[: settings.start_points]]
    level = median_low(logs)
    limit = math.log1p(settings.start_limit)
    return Start(level, frozenset(place for place, log in enumerate(logs) if abs(log - level) > limit))
