"""What was done: the list of sessions and one of them, for the client and for the coach."""

import uuid

from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.db.models import Count, Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from accounts import access
from logbook.compare import since_last_time
from logbook.models import Session
from logbook.next_set import live
from logbook.reads.sheet import sheet_for


@login_required
@require_GET
def history(request: HttpRequest) -> HttpResponse:
    """List the client's own sessions, latest first."""
    client = access.access_own_client(request.user)
    standing = Count("sets__number", filter=Q(sets__deleted_at=None, sets__warm_up=False))
    rows = Session.objects.filter(client=client).select_related("planned").annotate(logged=standing)
    page = Paginator(rows.order_by("-started_at", "pk"), 20).get_page(request.GET.get("page"))
    return render(request, "logbook/history.html", {"room": "history", "page": page})


@login_required
@require_GET
def performed_session(request: HttpRequest, session_id: uuid.UUID) -> HttpResponse:
    """Show one performed session; the client may go on to change it, the coach reads."""
    session = access.access_read(Session.objects.select_related("client__user", "planned"), request.user, pk=session_id)
    mine = session.client.user_id == request.user.pk
    sheet = sheet_for(session.client, today=session.date, session=session)
    unit = request.user.load_unit
    exercises = [
        {
            "entry": entry,
            "change": since_last_time(live(entry), (entry["last"] or {}).get("sets", []), entry["exercise"], unit),
            "logged": bool(entry["sets"]),
        }
        for entry in sheet.data["exercises"]
    ]
    context = {
        "room": "history" if mine else "clients",
        "mine": mine,
        "shell": "phone.html" if mine else "base.html",
        "session": session,
        "exercises": exercises,
        "pain": session.pain_reports.select_related("exercise"),
    }
    return render(request, "logbook/performed.html", context)
