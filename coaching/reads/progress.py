"""What a client sees of their own numbers: strength, weekly volume and body mass, as the worker derived them."""

import datetime as dt
from dataclasses import dataclass

from accounts.models import Client
from coaching.models import WeekSummary
from coaching.reads.strength import Strength, strength_of
from coaching.reads.week_row import GroupRow, WeekRow, week_row
from logbook.models import BodyMass
from programs.sentences import Words, words_for

WEEKS = 4
MASSES = 12


@dataclass(frozen=True)
class VolumeLine:
    """A muscle group over the weeks shown, oldest first; None where a week has no numbers. `now` is the last week."""

    name: str
    now: GroupRow
    weeks: list[float | None]


@dataclass(frozen=True)
class Progress:
    strength: Strength
    weeks: list[WeekRow]
    volume: list[VolumeLine]
    masses: list[BodyMass]
    words: Words


def progress_of(client: Client, asked: str | None, today: dt.date) -> Progress:
    """Return the client's own progress page. `asked` is the exercise to show, by id."""
    unit = client.user.load_unit
    words = words_for(unit, set())
    summaries = WeekSummary.objects.filter(client=client, week__lte=today).defer("inputs", "trends", "urgency_reasons")
    weeks = [row for one in reversed(summaries.order_by("-week")[:WEEKS]) if (row := week_row(one, words))]
    masses = list(BodyMass.objects.filter(client=client)[:MASSES])
    return Progress(strength_of(client, asked, today, unit), weeks, _lines(weeks), masses, words)


def _lines(weeks: list[WeekRow]) -> list[VolumeLine]:
    """One line for each muscle group that was trained or planned in any of the weeks, by name."""
    if not weeks:
        return []
    by_week = [{group.slug: group for group in week.groups} for week in weeks]
    lines = []
    for group in sorted(weeks[-1].groups, key=lambda row: row.name):
        rows = [found.get(group.slug) for found in by_week]
        if any(row and not row.idle for row in rows):
            lines.append(VolumeLine(group.name, group, [row.done if row else None for row in rows]))
    return lines
