"""Overreaching episodes in the truth."""

from collections.abc import Sequence

from demo.cohort.records import DayTruth, Episode

# Chosen: strength 5 % under what the usual week's fatigue leaves. One-week overreaching studies report drops of 3 to
# 5 % in tested 1RM (Ratamess 2003, MEMORY); less than a test's typical error of 4.2 % (Grgic 2020) nobody could see.
ONSET_EXCESS = 0.05
END_EXCESS = 0.025
MINIMUM_DAYS = 7


def episodes(days: Sequence[DayTruth], onset: float = ONSET_EXCESS, end: float = END_EXCESS) -> tuple[Episode, ...]:
    """Return stretches that begin when the excess reaches `onset` and last until it falls under `end`.

    Stretches under a week are no episodes.
    """
    found: list[Episode] = []
    first: DayTruth | None = None
    peak = 0.0
    for previous, day in zip([days[0], *days], days, strict=False):
        if first is None and day.excess >= onset:
            first, peak = day, day.excess
        elif first is not None and day.excess < end:
            found.append(Episode(first.day, previous.day, peak))
            first = None
        peak = max(peak, day.excess)
    if first is not None:
        found.append(Episode(first.day, days[-1].day, peak))
    return tuple(e for e in found if (e.end - e.onset).days + 1 >= MINIMUM_DAYS)
