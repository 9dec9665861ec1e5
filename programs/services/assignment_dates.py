"""On which dates the training days of a program fall. Dates are days of the client's own calendar."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from programs.document import Block, Day, Document, Week

WEEK = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class DatedDay:
    date: date
    block: Block
    block_number: int
    week: Week
    week_number: int
    day: Day
    day_number: int


def days_a_week(document: Document) -> int:
    """Return how many weekdays a program needs: the training days of its fullest week."""
    return max((len(week.days) for block in document.blocks for week in block.weeks), default=0)


def spread_evenly(count: int) -> list[int]:
    """Return `count` weekdays (Monday 0) with the days between them as equal as a week allows."""
    return [number * 7 // count for number in range(min(count, 7))] if count else []


def proposed_weekdays(document: Document, chosen: Sequence[int]) -> list[int]:
    """Return the weekdays chosen for the program if they fit it, else evenly spread ones."""
    count = days_a_week(document)
    return list(chosen) if len(chosen) == count and len(set(chosen)) == count else spread_evenly(count)


def dated_days(document: Document, starts_on: date, weekdays: Sequence[int]) -> Iterator[DatedDay]:
    """Yield the training days that have exercises, each on its weekday, in the order of the program.

    A week of the program is the seven days from `starts_on`, so a day whose weekday has passed on the first day falls
    at the end of the week, not before the start. A week without training days still takes its seven days.
    """
    opens = starts_on
    for block_number, block in enumerate(document.blocks, 1):
        for week_number, week in enumerate(block.weeks, 1):
            for day_number, (day, weekday) in enumerate(zip(week.days, weekdays, strict=False), 1):
                if day.slots:
                    on = opens + timedelta(days=(weekday - opens.weekday()) % 7)
                    yield DatedDay(on, block, block_number, week, week_number, day, day_number)
            opens += WEEK


def in_order(weekdays: Sequence[int], starts_on: date) -> bool:
    """Say whether the training days come in the program's order within each week."""
    offsets = [(weekday - starts_on.weekday()) % 7 for weekday in weekdays]
    return offsets == sorted(offsets)
