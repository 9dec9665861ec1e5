"""Hours between two exposures of the same muscle group, done and planned."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import pairwise

from periodization.rules import Param, Reason, Rule

RULE = Rule("spacing.gap", 1, "48 h minimum chosen; the position stands give days a week, not hours")
HOURS_PER_DAY = 24
DAYS_PER_WEEK = 7
# Less than one fractional set is no exposure: a curl's share of a row does not start a new recovery.
MINIMUM_SETS = 1.0


@dataclass(frozen=True, slots=True)
class Gap:
    """`hours` from the exposure at `first` to the next one of the same group at `second`."""

    group: str
    first: datetime
    second: datetime
    hours: float


@dataclass(frozen=True, slots=True)
class PlannedDay:
    """A training day of a plan's week: `weekday` 0 (Monday) to 6, and fractional sets per group."""

    weekday: int
    groups: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class GapWarning:
    """A group planned again too soon. `second` may be smaller than `first`: then it is in the next week."""

    group: str
    first: int
    second: int
    hours: int
    reason: Reason


def exposure_gaps(exposures: Iterable[tuple[datetime, str, float]], minimum_sets: float = MINIMUM_SETS) -> list[Gap]:
    """Return the gaps between neighbouring exposures per group, earliest first, in real elapsed hours.

    `exposures` are (time with a zone, group, fractional sets); several at the same moment are added together.
    """
    sets: dict[str, dict[datetime, float]] = defaultdict(lambda: defaultdict(float))
    for when, group, amount in exposures:
        if when.tzinfo is None:
            raise ValueError("An exposure's time needs its zone.")
        # Subtracting two times of one zone counts wall-clock hours, which is wrong across a clock change.
        sets[group][when.astimezone(UTC)] += amount
    gaps = []
    for group, moments in sets.items():
        times = sorted(t for t, amount in moments.items() if amount >= minimum_sets)
        for first, second in pairwise(times):
            gaps.append(Gap(group, first, second, (second - first).total_seconds() / 3600))
    return sorted(gaps, key=lambda gap: (gap.first, gap.group))


def gap_warnings(
    days: Iterable[PlannedDay], minimum_hours: float = 48, minimum_sets: float = MINIMUM_SETS
) -> list[GapWarning]:
    """Return a warning for each pair of neighbouring days that trains a group within `minimum_hours`.

    A plan has weekdays and no hours, so a day is 24 h, and the week repeats: Sunday is next to Monday.
    """
    warnings = []
    for group, first, second, hours in short_gaps(days, minimum_hours, minimum_sets):
        params: dict[str, Param] = {"group": group, "hours": hours, "minimum_hours": minimum_hours}
        warnings.append(GapWarning(group, first, second, hours, Reason("group_due_too_soon", params)))
    return warnings


def short_gaps(
    days: Iterable[PlannedDay], minimum_hours: float = 48, minimum_sets: float = MINIMUM_SETS
) -> list[tuple[str, int, int, int]]:
    """Return what `gap_warnings` warns of as (group, first weekday, second weekday, hours): for whoever tries a hundred
    weeks. Several days on one weekday are added together."""
    weekdays: dict[int, dict[str, float]] = {}
    for day in days:
        if not 0 <= day.weekday < DAYS_PER_WEEK:
            raise ValueError(f"A weekday is 0 to 6, not {day.weekday}.")
        if day.weekday not in weekdays:
            weekdays[day.weekday] = dict(day.groups)
            continue
        sums = weekdays[day.weekday]
        for group, amount in day.groups.items():
            sums[group] = sums.get(group, 0.0) + amount
    used: dict[str, list[int]] = {}
    for weekday in sorted(weekdays):
        for group, amount in weekdays[weekday].items():
            if amount >= minimum_sets:
                used.setdefault(group, []).append(weekday)
    gaps = []
    for group in sorted(used):
        on = used[group]
        if len(on) < 2:
            continue
        for first, second in zip(on, on[1:] + on[:1], strict=True):
            hours = (second - first) % DAYS_PER_WEEK * HOURS_PER_DAY
            if hours < minimum_hours:
                gaps.append((group, first, second, hours))
    return gaps
