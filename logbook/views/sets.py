"""Log, edit and delete a set with plain forms."""

import datetime as dt
import uuid

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from accounts import access
from accounts.models import Client
from logbook.far_load import earlier_loads
from logbook.forms.set_form import SetEditForm, SetForm, rir_initial
from logbook.models import Session, SetLog
from logbook.next_set import next_step
from logbook.operations.refused import Refused
from logbook.reads.entries import exercise_dict
from logbook.reads.last_time import loads_beside
from logbook.reads.rows import set_row
from logbook.reads.sheet import Sheet
from logbook.reads.swaps import swap_key
from logbook.services.operations import operation_apply
from logbook.views.fetch import begun_or_planned, sheet_of
from logbook.views.session import session_response
from programs.models import PlannedSession

# A page opened earlier than this before its first set was read on the way to the gym: the set begins the session.
OPENED_BEFORE = dt.timedelta(minutes=30)


@login_required
@require_POST
def set_log(request: HttpRequest, session_id: uuid.UUID) -> HttpResponse:
    """Log one set; the first one of a planned session begins the session."""
    client, session, planned = begun_or_planned(request, session_id)
    form = SetForm(request.POST)
    sheet = sheet_of(request, client, session, planned)
    if form.is_valid() and _sure(form, sheet):
        if session is None and planned is not None:
            _begin(client, session_id, planned, form, sheet)
        if form.save(client, session=session_id, number=_number(form, sheet)):
            messages.success(request, _("Set saved."))
            return redirect("session-page", session_id)
        session = Session.objects.select_related("client__user", "planned").filter(pk=session_id).first()
        sheet = sheet_of(request, client, session, planned)
    return session_response(request, sheet, bound=form, status=422)


def _number(form: SetForm, sheet: Sheet) -> int:
    """Warm-up sets have their own count, which the form cannot know before the box is ticked."""
    data = form.cleaned_data
    if data["warm_up"]:
        for entry in sheet.data["exercises"]:
            if entry["exercise"]["id"] == data["exercise"] and entry["slot"] == data["slot"]:
                return next_step(entry, warm_up=True)["number"]
    return data["number"]


def _sure(form: SetForm, sheet: Sheet) -> bool:
    """Ask about a load that is far from those before; the page with a script has asked by itself."""
    wanted = form.cleaned_data["exercise"], form.cleaned_data["slot"]
    for entry in (*sheet.data["exercises"], *sheet.data["swaps"]):
        if (entry["exercise"]["id"], entry["slot"]) == wanted:
            return form.sure_of(earlier_loads(entry), entry["exercise"]["load_kind"])
    return True


def _begin(client: Client, session_id: uuid.UUID, planned: PlannedSession, form: SetForm, sheet: Sheet) -> None:
    now = timezone.now()
    opened, then = form.cleaned_data["opened_at"], sheet.data["session"]["then"]
    started_at = opened if opened and now - OPENED_BEFORE <= opened <= now else now
    data = {"session": str(session_id), "planned": planned.pk, "started_at": started_at.isoformat()}
    if form.cleaned_data["when"] == "then" and then:
        data["started_at"] = then
    # Made from the set's own operation: a double tap begins the session once.
    identity = uuid.uuid5(form.cleaned_data["op"] or uuid.uuid4(), "start")
    operation = {"id": str(identity), "kind": "session.start", "at": now.isoformat(), "data": data}
    operation_apply(client=client, operation=operation, now=now)


@login_required
@require_http_methods(["GET", "POST"])
def set_page(request: HttpRequest, set_id: uuid.UUID) -> HttpResponse:
    """Show one set with its earlier values, and edit it."""
    row = _own_set(request, set_id)
    values = {name: getattr(row, name) for name in ("load", "unit", "reps", "note", "warm_up", "side")}
    initial = {"op": uuid.uuid4(), **values, **rir_initial(row.rir)}
    form = SetEditForm(request.POST if request.method == "POST" else None, initial=initial)
    sure = request.method == "POST" and form.is_valid() and form.sure_of(loads_beside(row), row.exercise.load_kind, row)
    if sure and form.save(row.client, set=set_id):
        messages.success(request, _("Set saved. The earlier values are kept."))
        return redirect(f"{reverse('session-page', args=[row.session_id])}?at={_place(row)}")
    context = {"form": form, "row": set_row(row), "exercise": exercise_dict(row.exercise), "set": row, "room": "today"}
    return render(request, "logbook/set.html", context, status=422 if form.errors else 200)


@login_required
@require_POST
def set_delete(request: HttpRequest, set_id: uuid.UUID) -> HttpResponse:
    """Take a set out of the log; it can be brought back by editing it."""
    row = _own_set(request, set_id)
    now = timezone.now()
    operation = {"id": request.POST.get("op") or str(uuid.uuid4()), "kind": "set.delete", "at": now.isoformat()}
    try:
        operation_apply(client=row.client, operation={**operation, "data": {"set": str(set_id)}}, now=now)
        messages.success(request, _("Set deleted. Its values are kept in its history."))
    except Refused as refusal:
        messages.error(request, refusal.title)
    return redirect(f"{reverse('session-page', args=[row.session_id])}?at={_place(row)}")


def _own_set(request: HttpRequest, set_id: uuid.UUID) -> SetLog:
    rows = SetLog.objects.select_related("client__user", "session", "slot", "exercise__equipment").prefetch_related(
        "history"
    )
    return access.access_write(rows, request.user, pk=set_id)


def _place(row: SetLog) -> str:
    if row.slot is None:
        return f"exercise-{row.exercise_id}"
    if row.slot.exercise_id != row.exercise_id:
        return swap_key(row.slot.pk, row.exercise_id)
    return f"slot-{row.slot.pk}"
