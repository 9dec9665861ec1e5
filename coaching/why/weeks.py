"""The week that a number belongs to, with the names its answers need."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.http import Http404
from django.shortcuts import get_object_or_404
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from coaching.models import WeekSummary
from coaching.recompute.calendar import WEEK
from coaching.why.links import Reader
from logbook.models import Session
from programs.models import Exercise, PlannedSession


def day_of(text: str) -> dt.date:
    """Read a day of an address; anything else is not found."""
    try:
        return dt.date.fromisoformat(text)
    except ValueError as error:
        raise Http404 from error


def week_row(reader: Reader, monday: str) -> WeekSummary:
    """Return the week's row of the client, or 404."""
    return get_object_or_404(WeekSummary, client=reader.client, week=day_of(monday))


def until(summary: WeekSummary) -> dt.date:
    """Return the last day that the row may know."""
    return min(summary.as_of, summary.week + WEEK - dt.timedelta(days=1))


def said(day: dt.date, form: str = "") -> str:
    return date_format(day, form or _("j M Y"))


@dataclass(frozen=True)
class Names:
    """Names of exercises by id as text, days of performed and planned sessions by id as text."""

    exercises: dict[str, str]
    sessions: dict[str, dt.date]
    planned: dict[str, dt.date]

    def exercise(self, pk: Any) -> str:
        return self.exercises.get(str(pk), "–")

    def session(self, pk: Any) -> str:
        day = self.sessions.get(str(pk))
        return said(day, _("D j M")) if day else "–"

    def planned_day(self, pk: Any) -> str:
        day = self.planned.get(str(pk))
        return said(day, _("D j M")) if day else "–"


def names(reader: Reader, exercises: Iterable[Any], sessions: Iterable[Any], planned: Iterable[Any] = ()) -> Names:
    """Read the names in three queries."""
    found = Exercise.objects.filter(pk__in={int(one) for one in exercises}).values_list("pk", "name")
    done = Session.objects.filter(client=reader.client, pk__in=set(sessions)).values_list("pk", "date")
    plan = PlannedSession.objects.filter(client=reader.client, pk__in=set(planned)).values_list("pk", "date")
    return Names(
        {str(pk): name for pk, name in found},
        {str(pk): day for pk, day in done},
        {str(pk): day for pk, day in plan},
    )
