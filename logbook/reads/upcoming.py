"""The client's next sessions, with everything needed to do them."""

import datetime as dt
from typing import Any

from django.db.models import Prefetch, QuerySet

from accounts.models import Client
from logbook.models import BodyMass, Session
from logbook.reads.entries import slot_entry
from logbook.reads.ladders import ladder_dict, ladder_key
from logbook.reads.last_time import last_time
from logbook.services.sessions import session_id_for
from programs.models import PlannedSession, PlannedSlot

SLOTS = Prefetch("slots", queryset=PlannedSlot.objects.select_related("exercise__equipment"))


def planned_between(client: Client, first: dt.date, last: dt.date) -> QuerySet[PlannedSession]:
    """Return the client's planned sessions of these days with their performed session; cancelled ones left out."""
    rows = PlannedSession.objects.filter(client=client, date__range=(first, last), cancelled_at=None)
    return rows.select_related("performed", "assignment")


def performed_of(planned: PlannedSession) -> Session | None:
    """Return the session that was logged for a planned one, if any."""
    return getattr(planned, "performed", None)


def planned_dict(planned: PlannedSession) -> dict[str, Any]:
    """Return a planned session's head; `session` is the id under which every device logs it."""
    performed = performed_of(planned)
    return {
        "planned": planned.pk,
        "session": str(performed.pk if performed else session_id_for(planned.pk)),
        "date": planned.date.isoformat(),
        "day_name": planned.day_name,
        "block_name": planned.block_name,
        "week_number": planned.week_number,
        "is_deload": planned.is_deload,
        "started": performed is not None,
        "finished": performed is not None and performed.finished_at is not None,
    }


def upcoming(client: Client, *, today: dt.date, days: int = 14) -> dict[str, Any]:
    """Return the planned sessions from today on for `days` days. Five queries, however many sessions."""
    rows = list(planned_between(client, today, today + dt.timedelta(days=days - 1)).prefetch_related(SLOTS))
    slots = [slot for row in rows for slot in row.slots.all()]
    last = last_time(client, {slot.exercise_id for slot in slots}, today=today)
    return {
        "from": today.isoformat(),
        "days": days,
        "unit": client.user.load_unit,
        "body_mass": body_mass_of(client),
        "ladders": {ladder_key(slot.exercise): ladder_dict(slot.exercise, client.user.load_unit) for slot in slots},
        "sessions": [
            {
                **planned_dict(row),
                "exercises": [slot_entry(slot, last, client.user.load_unit) for slot in row.slots.all()],
            }
            for row in rows
        ],
    }


def body_mass_of(client: Client) -> dict[str, Any] | None:
    """Return the latest body mass."""
    row = BodyMass.objects.filter(client=client).first()
    return row and {"date": row.date.isoformat(), "mass": row.mass, "unit": row.unit, "mass_kg": row.mass_kg}
