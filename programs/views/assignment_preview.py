"""What would be made: dates by week, before anything is saved."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from programs.document import Document
from programs.services.assignment_dates import DatedDay, dated_days


@dataclass(frozen=True, slots=True)
class PreviewWeek:
    block_name: str
    number: int
    deload: bool
    days: Sequence[DatedDay]


def preview_weeks(document: Document, starts_on: date, weekdays: Sequence[int]) -> list[PreviewWeek]:
    """Return the dated training days, week by week, each week in the order of its dates."""
    weeks: dict[str, list[DatedDay]] = {}
    for day in dated_days(document, starts_on, weekdays):
        weeks.setdefault(day.week.key, []).append(day)
    return [
        PreviewWeek(
            days[0].block.name, days[0].week_number, days[0].week.deload, sorted(days, key=lambda day: day.date)
        )
        for days in weeks.values()
    ]
