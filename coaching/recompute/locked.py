"""The client whose rows are made, locked, with the first day of everything that can make a row."""

import datetime as dt

from django.db.models import OuterRef, Subquery

from accounts.models import Client
from logbook.models import BodyMass, CheckIn, PainReport, Session
from programs.models import PlannedSession


def _first(model: type, field: str) -> Subquery:
    return Subquery(model.objects.filter(client=OuterRef("pk")).order_by(field).values(field)[:1])


def lock_client(client_id: int) -> Client | None:
    """Return the client under a row lock (PostgreSQL; on SQLite the immediate transaction serialises everything)."""
    return (
        # NO KEY: a phone that logs a set of this client (and so refers to the row) need not wait for the worker.
        Client.objects.select_for_update(of=("self",), no_key=True)
        .select_related("user")
        .annotate(
            first_session=_first(Session, "date"),
            first_planned=_first(PlannedSession, "date"),
            first_check_in=_first(CheckIn, "date"),
            first_mass=_first(BodyMass, "date"),
            first_pain=_first(PainReport, "reported_at"),
        )
        .filter(pk=client_id)
        .first()
    )


def first_day(client: Client, today: dt.date) -> dt.date:
    """Return the day from which a client has weeks: the first log, plan or record, and today at the latest."""
    pain = client.first_pain
    days = [
        client.first_session,
        client.first_planned,
        client.first_check_in,
        client.first_mass,
        client.user.day_of(client.created_at),
        client.user.day_of(pain) if pain else None,
    ]
    return min(today, *(day for day in days if day is not None))
