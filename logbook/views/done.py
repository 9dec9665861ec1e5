"""What was done: the list of sessions and one of them, for the client and for the coach."""

import uuid

from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.db.models import Count, Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from accounts import access
from logbook.compare import since_last_time
from logbook.far_load import slip_words
from logbook.forms.comment_form import CommentForm, empty_comment
from logbook.models import Session
from logbook.next_set import live
from logbook.reads.comments import thread_of
from logbook.reads.sheet import sheet_for
from logbook.services.comments import comment_write
from logbook.sides import one_sided, side_difference


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
    """Show one performed session; the client may go on to change it, the coach reads; both may comment on it."""
    return _page(request, _session(request, session_id), empty_comment())


@login_required
@require_POST
def session_comment(request: HttpRequest, session_id: uuid.UUID) -> HttpResponse:
    """Keep what the client or a coach says about a session."""
    session = _session(request, session_id)
    form = CommentForm(request.POST, label_suffix="")
    if form.is_valid() and _keep(request, session, form):
        return redirect(reverse("performed-session", args=[session.pk]) + "#comments")
    return _page(request, session, form, status=422)


def _session(request: HttpRequest, session_id: uuid.UUID) -> Session:
    rows = Session.objects.select_related("client__user", "client__practice", "planned")
    return access.access_read(rows, request.user, pk=session_id)


def _keep(request: HttpRequest, session: Session, form: CommentForm) -> bool:
    """Write the comment: the client's as the phone would send it, a coach's straight away."""
    if session.client.user_id == request.user.pk:
        return form.save(session.client, session=session.pk)
    comment_write(
        client=session.client,
        author=request.user,
        text=form.cleaned_data["text"],
        written_at=timezone.now(),
        id=form.cleaned_data["comment"],
        session=session,
    )
    return True


def _page(request: HttpRequest, session: Session, form: CommentForm, *, status: int = 200) -> HttpResponse:
    mine = session.client.user_id == request.user.pk
    sheet = sheet_for(session.client, today=session.date, session=session)
    unit = request.user.load_unit
    exercises = [
        {
            "entry": entry,
            "change": since_last_time(live(entry), (entry["last"] or {}).get("sets", []), entry["exercise"], unit),
            "difference": side_difference(live(entry), entry["exercise"], unit) if one_sided(entry) else "",
            "logged": bool(entry["sets"]),
            "rows": [(row, slip_words(entry, row, unit)) for row in entry["sets"]],
        }
        for entry in sheet.data["exercises"]
    ]
    context = {
        "room": "history" if mine else "clients",
        "mine": mine,
        "writes": not mine and access.clients_coached_by(request.user).filter(pk=session.client_id).exists(),
        "shell": "phone.html" if mine else "base.html",
        "session": session,
        "exercises": exercises,
        "pain": session.pain_reports.select_related("exercise"),
        "client": session.client,
        "thread": thread_of(session.client, request.user, request.GET.get("page"), session=session),
        "comment_form": form,
    }
    return render(request, "logbook/performed.html", context, status=status)
