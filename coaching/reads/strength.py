"""The e1RM of one exercise over time, as points and as the weekly level the trend gave."""

import datetime as dt
from dataclasses import dataclass
from typing import Any

from django.db.models import Count, Max

from accounts.models import Client
from coaching.models import StrengthPoint, WeekSummary
from periodization.units import from_kg

# Half a year: more would make the plot a smear, and the table a scroll.
SHOWN = dt.timedelta(weeks=26)


@dataclass(frozen=True)
class Strength:
    """`exercises` are (id, name, points), most trained first; `chosen` one of them, with its points, newest first."""

    exercises: list[tuple[int, str, int]]
    chosen: int | None
    points: list[StrengthPoint]
    trend: dict[str, Any] | None
    plot: dict[str, Any]


def strength_of(client: Client, asked: str | None, until: dt.date, unit: str) -> Strength:
    """Return what the client page shows of strength, in three queries."""
    rows = StrengthPoint.objects.filter(client=client, date__gt=until - SHOWN, date__lte=until)
    counted = rows.values_list("exercise_id", "exercise__name").annotate(n=Count("pk"), last=Max("date"))
    exercises = [(pk, name, n) for pk, name, n, _ in counted.order_by("-n", "-last", "exercise__name")]
    known = {str(pk): pk for pk, _, _ in exercises}
    chosen = known.get(asked or "", exercises[0][0] if exercises else None)
    if chosen is None:
        return Strength([], None, [], None, {})
    points = list(rows.filter(exercise=chosen).select_related("exercise__equipment").order_by("date", "pk"))
    weeks = WeekSummary.objects.filter(client=client, week__gt=until - SHOWN, week__lte=until).order_by("week")
    levels = [
        (as_of, trends[str(chosen)]) for as_of, trends in weeks.values_list("as_of", "trends") if str(chosen) in trends
    ]
    trend = levels[-1][1] if levels else None
    return Strength(exercises, chosen, points[::-1], trend, _plot(points, levels, unit))


def _plot(points: list[StrengthPoint], levels: list[tuple[dt.date, dict[str, Any]]], unit: str) -> dict[str, Any]:
    """Return aligned series for the plot in the reader's unit; days in UTC seconds, gaps as null."""

    def shown(kg: float) -> float:
        return round(from_kg(kg, "lb" if unit == "lb" else "kg"), 1)

    days = sorted({point.date for point in points} | {day for day, level in levels if level["level_kg"]})
    observed = {point.date: shown(point.e1rm_kg) for point in points}
    bands = {day: [shown(kg) for kg in level["level_kg"]] for day, level in levels if level["level_kg"]}
    return {
        "unit": unit,
        "days": [int(dt.datetime.combine(day, dt.time(), dt.UTC).timestamp()) for day in days],
        "observed": [observed.get(day) for day in days],
        "low": [bands[day][0] if day in bands else None for day in days],
        "level": [bands[day][1] if day in bands else None for day in days],
        "high": [bands[day][2] if day in bands else None for day in days],
    }
