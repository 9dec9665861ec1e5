"""On which dates the days of a changed program fall for someone who is in the middle of it. No database, no clock.

A week's window is the seven days that begin on the weekday of the first day and hold its earliest session. Weeks whose
window has opened, or in which something is fixed, keep their time: what lies behind is not dealt out again. The weeks
after the last of them take the windows that are left in the new order; a week that was added pushes the later ones on
by a week, one that was taken out lets them move up. Within a week the days keep their dates unless their order changed.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from programs.document import Document, Week
from programs.document.order import out_of_order
from programs.services.assignment_dates import WEEK


@dataclass(frozen=True, slots=True)
class Held:
    """A session there is. `week` and `day` are keys of the new document where it still has them, else its own.

    `fixed`: logged, running, or its day is over.
    """

    week: str
    day: str
    date: date
    fixed: bool


@dataclass(frozen=True, slots=True)
class NewDates:
    """`dates` by the new document's day keys; `left_out`: new days for which there is no time any more."""

    dates: Mapping[str, date]
    left_out: Sequence[str] = field(default_factory=list)


def new_dates(
    order_before: Sequence[str],
    days_before: Mapping[str, Sequence[str]],
    new: Document,
    held: Sequence[Held],
    starts_on: date,
    weekdays: Sequence[int],
    since: date,
) -> NewDates:
    """Date the training days of `new`. `order_before`: the weeks of the version followed until now, `days_before`:
    their days, both under keys as in Held. Nothing is dated before `since` that is not there already."""
    windows = _windows(order_before, held, starts_on)
    weeks = [week for block in new.blocks for week in block.weeks]
    opens = _deal(windows, weeks, {one.week for one in held if one.fixed}, starts_on, since)
    offsets = _kept_offsets(days_before, weeks, held, windows)
    dates: dict[str, date] = {}
    left_out: list[str] = []
    there = {one.day for one in held}
    for place, week in enumerate(weeks):
        for number, day in enumerate(week.days):
            if not day.slots:
                continue
            if week.key not in opens:
                left_out.append(day.key)
                continue
            if day.key not in offsets:
                offsets[day.key] = _free(
                    _likely(weeks, place, number, offsets), week, number, offsets, weekdays, starts_on
                )
            on = opens[week.key] + timedelta(days=offsets[day.key])
            if day.key in there or on >= since:
                dates[day.key] = on
            else:
                left_out.append(day.key)
    return NewDates(dates, left_out)


def _window(day: date, starts_on: date) -> date:
    return day - timedelta(days=(day.weekday() - starts_on.weekday()) % 7)


def _windows(order: Sequence[str], held: Iterable[Held], starts_on: date) -> dict[str, date]:
    """Return when the window of each week of the old order opens; a week without sessions follows the one before."""
    first: dict[str, date] = {}
    for one in held:
        first[one.week] = min(one.date, first.get(one.week, one.date))
    known = {week: _window(day, starts_on) for week, day in first.items()}
    lead = next((number for number, week in enumerate(order) if week in known), None)
    at = starts_on - WEEK if lead is None else known[order[lead]] - WEEK * (lead + 1)
    for week in order:
        at = known.setdefault(week, at + WEEK)
    return known


def _deal(
    windows: Mapping[str, date], weeks: Sequence[Week], fixed: set[str], starts_on: date, since: date
) -> dict[str, date]:
    """Give the weeks of the new document their windows; a new week before what has begun gets none."""
    begun = {week for week, opens in windows.items() if week in fixed or opens < since}
    last = max((place for place, week in enumerate(weeks) if week.key in begun), default=-1)
    behind = {week.key for week in weeks[: last + 1]}
    result = {key: windows[key] for key in behind if key in windows}
    left = iter(sorted(opens for week, opens in windows.items() if week not in begun and week not in behind))
    at = max((windows[week] for week in begun), default=starts_on - WEEK)
    for week in weeks[last + 1 :]:
        at = next(left, None) or _after(at, since)
        result[week.key] = at
    return result


def _after(at: date, since: date) -> date:
    """Return the window after `at`, not before `since`."""
    at += WEEK
    return at + WEEK * max(0, -(-(since - at).days // 7))


def _kept_offsets(
    days_before: Mapping[str, Sequence[str]], weeks: Sequence[Week], held: Iterable[Held], windows: Mapping[str, date]
) -> dict[str, int]:
    """Return the distance of each session from the opening of its week; days that changed places change dates too."""
    offsets: dict[str, int] = {}
    fixed: set[str] = set()
    for one in held:
        offsets[one.day] = (one.date - windows[one.week]).days
        if one.fixed:
            fixed.add(one.day)
    for week in weeks:
        before = [key for key in days_before.get(week.key, ()) if key in offsets and key not in fixed]
        now = [day.key for day in week.days if day.key in before]
        if out_of_order(now, before):
            places = [offsets[key] for key in before if key in now]
            offsets.update(zip(now, places, strict=True))
    return offsets


def _likely(weeks: Sequence[Week], place: int, number: int, offsets: Mapping[str, int]) -> int | None:
    """Return where the same training day falls in the nearest week that has it."""
    for other in _nearest(weeks, place):
        if number < len(other.days) and other.days[number].key in offsets:
            return offsets[other.days[number].key]
    return None


def _nearest(weeks: Sequence[Week], place: int) -> Iterator[Week]:
    for distance in range(1, len(weeks)):
        for at in (place - distance, place + distance):
            if 0 <= at < len(weeks):
                yield weeks[at]


def _free(
    likely: int | None,
    week: Week,
    number: int,
    offsets: Mapping[str, int],
    weekdays: Sequence[int],
    starts_on: date,
) -> int:
    """Return an offset that no other day of the week has: the likely one, the chosen weekday, or the emptiest day."""
    taken = {offsets[day.key] % 7 for day in week.days if day.key in offsets}
    chosen = [(weekdays[number] - starts_on.weekday()) % 7] if number < len(weekdays) else []
    for offset in ([likely] if likely is not None else []) + chosen:
        if offset % 7 not in taken:
            return offset
    free = [day for day in range(7) if day not in taken] or [6]
    return max(free, key=lambda day: min((_apart(day, other) for other in taken), default=0))


def _apart(one: int, other: int) -> int:
    return min((one - other) % 7, (other - one) % 7)
