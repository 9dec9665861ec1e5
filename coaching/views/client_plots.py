"""The client's numbers over weeks: volume, strength, sessions, well-being; and each plot's numbers as a file."""

from collections.abc import Callable

from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from accounts import access
from coaching.plots import pages
from coaching.plots.ask import LENGTHS, Ask, read_ask
from coaching.plots.file import csv_file


def _page(request: HttpRequest, client_id: int, tab: str, sheet: Callable[[Ask], pages.Sheet]) -> HttpResponse:
    client = access.access_client_as_coach(request.user, client_id)
    ask = read_ask(client, request.user.load_unit, request.GET, at_desk=True)
    found = sheet(ask)
    context = {"room": "clients", "tab": tab, "client": client, "ask": ask, "lengths": LENGTHS, "plots": found.plots}
    return render(request, f"coaching/client_{tab}.html", context | found.more)


@login_required
@require_safe
def client_volume(request: HttpRequest, client_id: int) -> HttpResponse:
    """Show weekly volume by muscle group and head against the ranges."""
    return _page(request, client_id, "volume", pages.volume_sheet)


@login_required
@require_safe
def client_strength(request: HttpRequest, client_id: int) -> HttpResponse:
    """Show the e1RM of an exercise over weeks, and both sides of a one-sided one."""
    return _page(request, client_id, "strength", pages.strength_sheet)


@login_required
@require_safe
def client_sessions(request: HttpRequest, client_id: int) -> HttpResponse:
    """Show what was done of the plan, how hard, and the session load."""
    return _page(request, client_id, "sessions", pages.sessions_sheet)


@login_required
@require_safe
def client_well_being(request: HttpRequest, client_id: int) -> HttpResponse:
    """Show check-ins, body mass and reports of pain."""
    return _page(request, client_id, "well_being", pages.well_being_sheet)


@login_required
@require_safe
def client_plot_file(request: HttpRequest, client_id: int, name: str) -> HttpResponse:
    """Answer with one plot's numbers as CSV."""
    client = access.access_client_as_coach(request.user, client_id)
    plot = pages.plot_named(name, read_ask(client, request.user.load_unit, request.GET, at_desk=True))
    if plot is None:
        raise Http404
    return csv_file(plot, slugify(str(client)) or "client")
