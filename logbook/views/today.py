"""What is today and next, and the week's plan."""

import datetime as dt

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from accounts import access
from logbook.reads.today import card, today_for
from logbook.reads.upcoming import SLOTS, planned_between


@login_required
@require_GET
def today(request: HttpRequest) -> HttpResponse:
    """Show today's session or the next one, the check-in, and what is unfinished."""
    client = access.access_own_client(request.user)
    return render(
        request, "logbook/today.html", {"room": "today", "today": today_for(client, today=client.user.today())}
    )


@login_required
@require_GET
def plan(request: HttpRequest) -> HttpResponse:
    """Show one week of the plan (Monday to Sunday of the client's calendar)."""
    client = access.access_own_client(request.user)
    now = client.user.today()
    monday = _monday(request.GET.get("week"), now)
    rows = planned_between(client, monday, monday + dt.timedelta(days=6)).prefetch_related(SLOTS)
    week = dt.timedelta(days=7)
    context = {
        "room": "plan",
        "today": now,
        "monday": monday,
        "sunday": monday + dt.timedelta(days=6),
        "cards": [card(row) for row in rows],
        "previous": (monday - week).isoformat(),
        "next": (monday + week).isoformat(),
        "this_week": monday <= now < monday + week,
    }
    return render(request, "logbook/plan.html", context)


def _monday(text: str | None, today: dt.date) -> dt.date:
    """Return the Monday of the week named, or of this week; years far away are not asked for."""
    try:
        day = dt.date.fromisoformat(text or "")
    except ValueError:
        day = today
    if abs((day - today).days) > 3650:
        day = today
    return day - dt.timedelta(days=day.weekday())
