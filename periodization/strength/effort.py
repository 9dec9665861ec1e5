"""Ratings of perceived exertion of a set, read as repetitions in reserve."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class RirRange:
    """Repetitions in reserve between `low` and `high`."""

    low: float
    high: float

    @property
    def point(self) -> float | None:
        """The middle, when the published range is narrow enough (one repetition) to be read as one number."""
        return (self.low + self.high) / 2 if self.high - self.low <= 1 else None


# Anchors: University of Queensland form of Zourdos 2016. 6.5 has no published anchor: it gets both neighbours.
_ANCHORS: dict[float, RirRange] = {
    10.0: RirRange(0, 0),
    9.5: RirRange(0, 0),
    9.0: RirRange(1, 1),
    8.5: RirRange(1, 2),
    8.0: RirRange(2, 2),
    7.5: RirRange(2, 3),
    7.0: RirRange(3, 3),
    6.5: RirRange(3, 6),
    6.0: RirRange(4, 6),
    5.5: RirRange(4, 6),
    5.0: RirRange(4, 6),
}


def rpe_to_rir(rpe: float) -> RirRange | None:
    """Return the RIR that a set's RPE (1-10, in halves) stands for; None below 5, where it says only 'light'.

    Source: Zourdos et al. 2016. Never `10 - rpe` below 7: from there the scale gives a range.
    """
    if not 1 <= rpe <= 10 or (rpe * 2) % 1:
        raise ValueError(f"An RPE is 1 to 10 in halves, not {rpe}.")
    return _ANCHORS.get(float(rpe))
