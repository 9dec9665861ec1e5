"""Planned sessions as events that any calendar program reads (RFC 5545)."""

import datetime as dt
from typing import Any

import icalendar
from django.utils.translation import gettext as _

from logbook.models import CalendarFeed, Session
from logbook.reads.today import card
from logbook.reads.upcoming import SLOTS, planned_between
from logbook.wording import prescription_words
from programs.models import PlannedSession, PlannedSlot

# Past sessions stay for a while, so that a calendar that asks rarely does not lose them at once.
BACK = dt.timedelta(days=30)
AHEAD = dt.timedelta(days=366)
# A session takes its time even where the plan cannot tell: an event of no length is easily missed.
LEAST_MINUTES = 15


def calendar_of(feed: CalendarFeed, *, now: dt.datetime, address: str) -> bytes:
    """Return the client's sessions from a month ago to a year ahead, in the client's zone and two queries.

    `address` is the beginning of the app's own, such as https://example.org.
    """
    client, today = feed.client, feed.client.user.day_of(now)
    calendar = icalendar.Calendar()
    calendar.add("prodid", "-//Sinewright//Planned sessions//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("name", _("Training"))
    calendar.add("x-wr-calname", _("Training"))
    calendar.add("refresh-interval", dt.timedelta(hours=6), parameters={"VALUE": "DURATION"})
    for planned in planned_between(client, today - BACK, today + AHEAD).prefetch_related(SLOTS):
        calendar.add_component(event_of(planned, feed, now=now, address=address))
    # The rules of the zone, so that a clock change within the year is read rightly everywhere.
    calendar.add_missing_timezones(first_date=today - BACK, last_date=today + AHEAD)
    return calendar.to_ical()


def event_of(planned: PlannedSession, feed: CalendarFeed, *, now: dt.datetime, address: str) -> icalendar.Event:
    """Return one planned session as an event; its identity stays when the plan moves it to another day."""
    drawn = card(planned)
    host = address.partition("//")[2]
    event = icalendar.Event()
    event.add("uid", f"planned-{planned.pk}@{host}")
    event.add("dtstamp", now.replace(microsecond=0))
    event.add("summary", summary_of(planned, drawn["performed"]))
    event.add("description", "\n".join([*map(line_of, drawn["slots"]), "", f"{address}/train/planned/{planned.pk}/"]))
    event.add("url", f"{address}/train/planned/{planned.pk}/")
    if feed.starts_at is None:
        event.add("dtstart", planned.date)
        event.add("dtend", planned.date + dt.timedelta(days=1))
        event.add("transp", "TRANSPARENT")
    else:
        event.add("dtstart", dt.datetime.combine(planned.date, feed.starts_at, tzinfo=feed.client.user.zone))
        # Not an end: a clock time is ambiguous in the hour that clocks go back.
        event.add("duration", dt.timedelta(minutes=max(LEAST_MINUTES, drawn["minutes"])))
    return event


def summary_of(planned: PlannedSession, performed: Session | None) -> str:
    """Return the day's name, and what became of it."""
    name = _("%(day)s (deload)") % {"day": planned.day_name} if planned.is_deload else planned.day_name
    if performed and performed.finished_at:
        return _("%(day)s – done") % {"day": name}
    return name


def line_of(slot: PlannedSlot) -> str:
    """Say one exercise: "A1 Incline press: 3 × 8–12 @ 1–2 RIR"."""
    names = ("sets_min", "sets", "reps_min", "reps_max", "rir_min", "rir_max")
    prescription: dict[str, Any] = {name: getattr(slot, name) for name in names}
    words = prescription_words(prescription, {"rep_unit": slot.exercise.rep_unit})
    return f"{slot.pair} {slot.exercise.name}: {words}".strip()
