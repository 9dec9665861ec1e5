"""Fetch what a client logs on, through the door."""

import uuid
from typing import Any

from django.http import Http404, HttpRequest

from accounts import access
from accounts.models import Client
from logbook.models import Session
from logbook.reads.sheet import Sheet, sheet_for
from logbook.services.sessions import session_id_for
from programs.models import Exercise, PlannedSession


def own_session(user: Any, session_id: uuid.UUID) -> Session:
    """Return a session that the user may log in: 404 to strangers, 403 to those who may only read it."""
    return access.access_write(Session.objects.select_related("client__user", "planned"), user, pk=session_id)


def own_planned(user: Any, planned_id: int) -> PlannedSession:
    """Return a planned session of the user's own plan, or raise Http404."""
    client = access.access_own_client(user)
    rows = PlannedSession.objects.filter(client=client).select_related("performed")
    return access.access_read(rows, user, pk=planned_id)


def begun_or_planned(
    request: HttpRequest, session_id: uuid.UUID
) -> tuple[Client, Session | None, PlannedSession | None]:
    """Return the client with the session, or with the planned session whose first set is about to be logged."""
    if Session.objects.filter(pk=session_id).exists():
        session = own_session(request.user, session_id)
        return session.client, session, session.planned
    client = access.access_own_client(request.user)
    named = request.POST.get("planned", "")
    if not (named.isascii() and named.isdigit() and len(named) < 10):
        raise Http404
    planned = own_planned(request.user, int(named))
    if session_id_for(planned.pk) != session_id:
        raise Http404
    return client, None, planned


def sheet_of(
    request: HttpRequest, client: Client, session: Session | None, planned: PlannedSession | None = None
) -> Sheet:
    """Return the sheet, with the exercise that ?exercise= adds and the substitute that ?at= names."""
    today = client.user.today()
    at = request.POST.get("at") or request.GET.get("at", "")
    return sheet_for(client, today=today, session=session, planned=planned, extra=_extra(request), swap=at)


def _extra(request: HttpRequest) -> Exercise | None:
    named = request.GET.get("exercise", "")
    if not (named.isascii() and named.isdigit() and len(named) < 10):
        return None
    rows = Exercise.objects.visible_to(request.user).filter(archived_at=None).select_related("equipment")
    return rows.filter(pk=int(named)).first()
