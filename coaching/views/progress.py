"""The client's own progress."""

from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from accounts import access
from coaching.plots.ask import LENGTHS, read_ask
from coaching.plots.file import csv_file
from coaching.plots.pages import OWN, own_sheet, plot_named
from logbook.reads.comments import unread_of


@login_required
@require_safe
def progress(request: HttpRequest) -> HttpResponse:
    """Show a client their estimated strength, weekly volume, check-ins and body mass."""
    client = access.access_own_client(request.user)
    ask = read_ask(client, request.user.load_unit, request.GET, at_desk=False)
    found = own_sheet(ask)
    context = {"room": "history", "client": client, "ask": ask, "lengths": LENGTHS}
    context["unread"] = unread_of(client, request.user)
    return render(request, "coaching/progress.html", context | found.more)


@login_required
@require_safe
def progress_file(request: HttpRequest, name: str) -> HttpResponse:
    """Answer with the numbers of one of the client's own plots as CSV."""
    client = access.access_own_client(request.user)
    ask = read_ask(client, request.user.load_unit, request.GET, at_desk=False)
    plot = plot_named(name, ask) if name in OWN else None
    if plot is None:
        raise Http404
    return csv_file(plot, "progress")
