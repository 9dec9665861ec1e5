"""Why a number is what it is."""

import datetime as dt
from uuid import UUID

from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from accounts import access
from coaching.models import FlagRow, StrengthPoint, WeekSummary
from coaching.reads.named import exercises_of
from coaching.reads.week_row import group_rows
from coaching.reads.why import estimate_steps, evidence_of, volume_why
from periodization.strength import formula_named
from periodization.targets import spread_on
from programs.models import PlannedSlot
from programs.sentences import words_for


@login_required
@require_safe
def volume(request: HttpRequest, client_id: int, week: str, group: str) -> HttpResponse:
    """Show the sets and credits that make a group's week."""
    client = access.access_client_as_coach(request.user, client_id)
    try:
        monday = dt.date.fromisoformat(week)
    except ValueError as error:
        raise Http404 from error
    summary = get_object_or_404(WeekSummary, client=client, week=monday)
    words = words_for(request.user.load_unit)
    row = next((row for row in group_rows(summary.volume, words) if row.slug == group), None)
    if row is None:
        raise Http404
    context = {"room": "clients", "client": client, "summary": summary, "group": row, "spread": spread_on(group)}
    return render(request, "coaching/why_volume.html", context | {"why": volume_why(summary, group)})


@login_required
@require_safe
def strength(request: HttpRequest, client_id: int, session_id: UUID, exercise_id: int) -> HttpResponse:
    """Show how a set became an e1RM."""
    client = access.access_client_as_coach(request.user, client_id)
    rows = StrengthPoint.objects.select_related("exercise__equipment", "session")
    point = get_object_or_404(rows, client=client, session=session_id, exercise=exercise_id)
    formula = formula_named(point.inputs["formula"])
    context = {
        "room": "clients",
        "client": client,
        "point": point,
        "steps": estimate_steps(point.inputs),
        "formula": formula,
        "factor": formula.factor(point.inputs["reps_to_failure"]),
        "words": words_for(request.user.load_unit),
    }
    return render(request, "coaching/why_strength.html", context)


@login_required
@require_safe
def target(request: HttpRequest, client_id: int, slot_id: int) -> HttpResponse:
    """Show what a slot's next target rests on."""
    client = access.access_client_as_coach(request.user, client_id)
    rows = PlannedSlot.objects.select_related("session", "exercise__equipment")
    slot = get_object_or_404(rows, session__client=client, pk=slot_id)
    reason = slot.target_reason or {}
    context = {
        "room": "clients",
        "client": client,
        "slot": slot,
        "reason": reason,
        "evidence": evidence_of(client, reason.get("evidence", ())),
        "words": words_for(request.user.load_unit),
    }
    return render(request, "coaching/why_target.html", context)


@login_required
@require_safe
def flag(request: HttpRequest, flag_id: UUID) -> HttpResponse:
    """Show the entries and thresholds behind a flag."""
    row = access.access_write(FlagRow.objects.select_related("client__user"), request.user, pk=flag_id)
    context = {
        "room": "clients",
        "client": row.client,
        "flag": row,
        "evidence": evidence_of(row.client, row.inputs["evidence"]),
        "words": words_for(request.user.load_unit, exercises_of(row)),
    }
    return render(request, "coaching/why_flag.html", context)
