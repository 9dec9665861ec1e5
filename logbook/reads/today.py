"""What today asks of the client."""

import datetime as dt
from dataclasses import dataclass
from typing import Any

from django.db.models import Q

from accounts.models import Client
from logbook.models import CheckIn, Session
from logbook.reads.comments import Unread, unread_of
from logbook.reads.screening import Standing, standing_of
from logbook.reads.upcoming import SLOTS, performed_of, planned_between
from periodization.duration import SlotTime, session_minutes, whole_minutes
from programs.models import Assignment, PlannedSession, PlannedSlot
from programs.services.slot_time import slot_time

# How far back a planned session that was not logged is still offered.
MISSED_DAYS = 7
AHEAD_DAYS = 14


@dataclass(frozen=True, slots=True)
class Today:
    date: dt.date
    unfinished: list[Session]
    others_done: list[Session]
    sessions: list[dict[str, Any]]
    upcoming: dict[str, Any] | None
    standstill: Assignment | None
    missed: list[PlannedSession]
    check_in: CheckIn | None
    first_session: bool
    screening: Standing
    unread: Unread


def today_for(client: Client, *, today: dt.date) -> Today:
    """Return the client's today. Nine queries at most, whatever the plan."""
    first, last = today - dt.timedelta(days=MISSED_DAYS), today + dt.timedelta(days=AHEAD_DAYS)
    planned = list(planned_between(client, first, last).prefetch_related(SLOTS))
    open_or_today = Q(finished_at=None, date__gte=first) | Q(date=today)
    performed = list(Session.objects.filter(open_or_today, client=client).select_related("planned"))
    ahead = [row for row in planned if row.date > today and not performed_of(row)]
    return Today(
        date=today,
        unfinished=[row for row in performed if not row.finished_at],
        # Finished today without being today's in the plan: one of another day, or one that no plan asked for.
        others_done=[row for row in performed if row.finished_at and not (row.planned and row.planned.date == today)],
        sessions=[card(row) for row in planned if row.date == today],
        upcoming=card(ahead[0]) if ahead else None,
        standstill=None if ahead or any(row.date == today for row in planned) else _standstill(client, today),
        missed=[row for row in planned if row.date < today and not performed_of(row)],
        check_in=CheckIn.objects.filter(client=client, date=today).first(),
        first_session=not Session.objects.filter(client=client).exclude(finished_at=None).exists(),
        screening=standing_of(client, today=today),
        unread=unread_of(client, client.user),
    )


def _standstill(client: Client, today: dt.date) -> Assignment | None:
    """Return the plan that is paused, else the one that ended last; None while another goes on, or this one still."""
    plans = Assignment.objects.filter(client=client)
    newest = plans.order_by("-ended_on", "-starts_on", "-pk")
    if plans.not_over(today).exclude(status=Assignment.Status.PAUSED).exists():
        return None
    return newest.filter(status=Assignment.Status.PAUSED).first() or newest.first()


def card(planned: PlannedSession) -> dict[str, Any]:
    """Return a planned session with its performed one and its length in minutes, as its coach sees it."""
    slots = list(planned.slots.all())
    minutes = whole_minutes(session_minutes([_time(slot) for slot in slots]))
    return {"planned": planned, "performed": performed_of(planned), "slots": slots, "minutes": minutes}


def _time(slot: PlannedSlot) -> SlotTime:
    return slot_time(
        sets=slot.sets,
        reps=(slot.reps_min, slot.reps_max),
        rest_s=slot.rest_s,
        tempo=slot.tempo,
        pair=slot.pair[:1],
        one_sided=slot.exercise.each_side,
        rep_s=slot.exercise.seconds_a_rep,
        setup_s=slot.exercise.setup_s,
    )
