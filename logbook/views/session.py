"""The page on which a session is logged."""

import uuid
from typing import Any

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET

from accounts import access
from logbook.forms.session_forms import CR10, BodyMassForm, FinishForm, NoteForm, PainForm, SkipForm, fresh
from logbook.forms.set_form import SetForm, set_form_for
from logbook.next_set import wanted_sets
from logbook.reads.panels import Panel, current_of, panels_of, swap_panels_of
from logbook.reads.screening import standing_of
from logbook.reads.sheet import Sheet
from logbook.views.fetch import own_planned, own_session, sheet_of
from logbook.wording import minutes_proposed

LONG = ("set_up", "cues", "cautions")


@login_required
@require_GET
def session_page(request: HttpRequest, session_id: uuid.UUID) -> HttpResponse:
    """Show a session that has begun."""
    session = own_session(request.user, session_id)
    return session_response(request, sheet_of(request, session.client, session))


@login_required
@require_GET
def planned_session(request: HttpRequest, planned_id: int) -> HttpResponse:
    """Show a planned session; its first set begins it."""
    planned = own_planned(request.user, planned_id)
    performed = getattr(planned, "performed", None)
    if performed:
        query = request.GET.urlencode()  # which exercise was shown, for a reload after the first set
        return redirect(reverse("session-page", args=[performed.pk]) + (f"?{query}" if query else ""))
    client = access.access_own_client(request.user)
    if standing_of(client, today=client.user.today()).closed:
        # Only what has not begun: a set that was done is always taken, whatever was answered.
        return redirect("screening")
    return session_response(request, sheet_of(request, client, None, planned))


def session_response(
    request: HttpRequest, sheet: Sheet, *, bound: SetForm | None = None, status: int = 200, **forms: Any
) -> HttpResponse:
    """Render the page; `bound` is a refused set that stays as typed, `forms` the other refused forms by name."""
    panels = panels_of(sheet)
    asked = request.GET.get("at") or request.POST.get("at")
    extra = request.GET.get("exercise")
    current = current_of(panels, asked or (extra and f"exercise-{extra}"))
    context = {
        "room": "today",
        "sheet": sheet,
        "head": sheet.data["session"],
        "panels": [(panel, bound if bound and panel == current else set_form_for(panel)) for panel in panels],
        "current": current,
        "swaps": [(panel, set_form_for(panel)) for panel in swap_panels_of(sheet)],
        "progress": {"done": sum(p.done for p in panels), "wanted": wanted_sets(sheet.data["exercises"])},
        "all_done": bool(panels) and all(panel.is_done for panel in panels),
        "data": {**_for_script(sheet.data), "person": request.user.pk, "opened_at": timezone.now().isoformat()},
        "anchors": CR10,
        **_forms(sheet, current),
        **forms,
    }
    return render(request, "logbook/session.html", context, status=status)


def _for_script(data: dict[str, Any]) -> dict[str, Any]:
    """Leave out the long texts: they stand in the page already."""
    slim = {}
    for name in ("exercises", "swaps"):
        slim[name] = [
            {**entry, "exercise": {key: value for key, value in entry["exercise"].items() if key not in LONG}}
            for entry in data[name]
        ]
    return data | slim


def _forms(sheet: Sheet, current: Panel | None) -> dict[str, Any]:
    head = sheet.data["session"]
    exercise = current.entry["exercise"]["id"] if current else None
    return {
        "note_form": fresh(NoteForm, note=head["note"]),
        "skip_form": fresh(SkipForm, reason="other"),
        "finish_form": fresh(FinishForm, minutes=head["minutes"] or _minutes(sheet), note=head["note"]),
        "mass_form": fresh(BodyMassForm, unit=sheet.data["unit"]),
        "pain_form": fresh(PainForm, report=uuid.uuid4(), exercise=exercise, side="middle"),
    }


def _minutes(sheet: Sheet) -> int | None:
    if sheet.session is None:
        return None
    last = max((row.performed_at for row in sheet.session.sets.all()), default=None)
    return minutes_proposed(sheet.session.started_at, last)
