"""The client page."""

import datetime as dt

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from accounts import access
from coaching.forms import AcceptForm, RefuseForm
from coaching.reads.client import client_desk
from coaching.recompute.calendar import WEEK, week_of
from coaching.views.board import read_week


@login_required
@require_safe
def client_page(request: HttpRequest, client_id: int) -> HttpResponse:
    """Show one client's week: questions, flags, plan and done, volume, strength, decisions."""
    client = access.access_client_as_coach(request.user, client_id)
    today = client.user.today()
    week = read_week(request.GET.get("week"), today)
    asked = {name: request.GET.get(name) for name in ("exercise", "weeks", "decisions")}
    desk = client_desk(client, request.user, week, today, asked)
    context = {
        "room": "clients",
        "client": client,
        "desk": desk,
        "words": desk.words,
        "week": week,
        "week_ends": week + WEEK - dt.timedelta(days=1),
        "previous": week - WEEK,
        "next": week + WEEK if week + WEEK <= today else None,
        "this_week": week_of(today),
        "today": today,
        "accept_form": AcceptForm(initial={"seen": desk.question.seen}) if desk.question else None,
        "refuse_form": RefuseForm(),
    }
    return render(request, "coaching/client.html", context)
