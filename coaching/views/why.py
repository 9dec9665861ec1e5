"""Why a number is what it is: at the desk, and for the client's own numbers."""

from uuid import UUID

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from accounts import access
from coaching.models import FlagRow
from coaching.why.kinds import answer_to
from coaching.why.links import Reader


@login_required
@require_safe
def why(request: HttpRequest, client_id: int, kind: str, path: str) -> HttpResponse:
    """Answer for a number of a client whom the reader coaches."""
    client = access.access_client_as_coach(request.user, client_id)
    reader = Reader(client, request.user.load_unit, at_desk=True)
    context = {"room": "clients", "client": client, "answer": answer_to(reader, kind, path)}
    return render(request, "coaching/why.html", context)


@login_required
@require_safe
def own_why(request: HttpRequest, kind: str, path: str) -> HttpResponse:
    """Answer for a number of the reader's own."""
    client = access.access_own_client(request.user)
    reader = Reader(client, request.user.load_unit, at_desk=False)
    context = {"room": "history", "client": client, "answer": answer_to(reader, kind, path)}
    return render(request, "coaching/own_why.html", context)


@login_required
@require_safe
def flag(request: HttpRequest, flag_id: UUID) -> HttpResponse:
    """Answer for a flag, by its id alone."""
    row = access.access_write(FlagRow.objects.select_related("client__user"), request.user, pk=flag_id)
    reader = Reader(row.client, request.user.load_unit, at_desk=True)
    context = {"room": "clients", "client": row.client, "answer": answer_to(reader, "flag", str(row.pk))}
    return render(request, "coaching/why.html", context)
