"""The session's other acts: skip, note, pain, body mass, finish, discard, add an exercise."""

import uuid

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from accounts import access
from logbook.forms.operation import OperationForm
from logbook.forms.session_forms import BodyMassForm, FinishForm, NoteForm, PainForm, SkipForm
from logbook.models import Session
from logbook.operations.refused import Refused
from logbook.reads.screening import standing_of
from logbook.services.operations import operation_apply
from logbook.views.fetch import begun_or_planned, own_session, sheet_of
from logbook.views.session import session_response
from programs.models import Exercise


def _act(request: HttpRequest, session_id: uuid.UUID, form: OperationForm, name: str) -> HttpResponse | None:
    """Carry out a form's operation in a session (begun by it if need be); a response only when it was refused."""
    client, session, planned = begun_or_planned(request, session_id)
    if form.is_valid():
        if session is None and planned is not None:
            _start(client, session_id, planned.pk)
        if form.save(client, session=session_id):
            return None
        session = Session.objects.select_related("client__user", "planned").filter(pk=session_id).first()
    return session_response(request, sheet_of(request, client, session, planned), status=422, **{name: form})


def _start(client, session_id: uuid.UUID, planned_id: int | None) -> None:
    now = timezone.now()
    data = {"session": str(session_id), "planned": planned_id}
    operation = {"id": str(uuid.uuid4()), "kind": "session.start", "at": now.isoformat(), "data": data}
    operation_apply(client=client, operation=operation, now=now)


@login_required
@require_POST
def slot_skip(request: HttpRequest, session_id: uuid.UUID) -> HttpResponse:
    """Leave an exercise out, or take that back."""
    return _act(request, session_id, SkipForm(request.POST), "skip_form") or redirect("session-page", session_id)


@login_required
@require_POST
def session_note(request: HttpRequest, session_id: uuid.UUID) -> HttpResponse:
    """Write the note of the session."""
    refused = _act(request, session_id, NoteForm(request.POST), "note_form")
    if refused is None:
        messages.success(request, _("Note saved."))
    return refused or redirect("session-page", session_id)


@login_required
@require_POST
def pain_report(request: HttpRequest, session_id: uuid.UUID) -> HttpResponse:
    """Report pain; over 5 the page tells the client to stop."""
    form = PainForm(request.POST)
    refused = _act(request, session_id, form, "pain_form")
    if refused:
        return refused
    if form.result and form.result["pain_report"]["stop"]:
        messages.warning(
            request,
            _("Pain over 5: stop this exercise, and seek the advice of a licensed clinician before you do it again."),
        )
    else:
        messages.success(request, _("Pain report saved. Your coach can see it."))
    return redirect("session-page", session_id)


@login_required
@require_POST
def body_mass(request: HttpRequest) -> HttpResponse:
    """Record today's body mass, and go back to where it was asked for."""
    client = access.access_own_client(request.user)
    form = BodyMassForm(request.POST)
    if form.is_valid() and form.save(client):
        messages.success(request, _("Body mass saved."))
    else:
        messages.error(request, " ".join(message for errors in form.errors.values() for message in errors))
    return redirect(_own_page(request))


def _own_page(request: HttpRequest) -> str:
    """SECURITY: only known places; an address from the form could lead off the site."""
    back = request.POST.get("back", "")
    return back if back.startswith("/train/") and "//" not in back and "\\" not in back else "/train/"


@login_required
@require_POST
def session_finish(request: HttpRequest, session_id: uuid.UUID) -> HttpResponse:
    """Finish the session and show its summary."""
    session = own_session(request.user, session_id)
    form = FinishForm(request.POST)
    if form.is_valid() and form.save(session.client, session=session_id):
        messages.success(request, _("Session finished."))
        return redirect("performed-session", session_id)
    return session_response(request, sheet_of(request, session.client, session), status=422, finish_form=form)


@login_required
@require_POST
def session_discard(request: HttpRequest, session_id: uuid.UUID) -> HttpResponse:
    """Take back a session in which nothing was logged."""
    session = own_session(request.user, session_id)
    now = timezone.now()
    operation = {"id": str(uuid.uuid4()), "kind": "session.discard", "at": now.isoformat()}
    try:
        operation_apply(client=session.client, operation={**operation, "data": {"session": str(session_id)}}, now=now)
        messages.success(request, _("Empty session removed."))
    except Refused as refusal:
        messages.error(request, refusal.title)
        return redirect("session-page", session_id)
    return redirect("today")


@login_required
@require_POST
def session_unplanned(request: HttpRequest) -> HttpResponse:
    """Begin a session that no plan asked for, and choose its first exercise."""
    client = access.access_own_client(request.user)
    if standing_of(client, today=client.user.today()).closed:
        return redirect("screening")
    session_id = uuid.uuid4()
    _start(client, session_id, None)
    return redirect("session-add", session_id)


@login_required
@require_GET
def session_add(request: HttpRequest, session_id: uuid.UUID) -> HttpResponse:
    """Choose an exercise of the library to add to the session."""
    session = own_session(request.user, session_id)
    query = request.GET.get("q", "").strip()[:80]
    rows = Exercise.objects.visible_to(request.user).filter(archived_at=None).select_related("equipment")
    if query:
        rows = rows.filter(name__icontains=query)
    page = Paginator(rows, 30).get_page(request.GET.get("page"))
    return render(request, "logbook/add.html", {"session": session, "page": page, "q": query, "room": "today"})
