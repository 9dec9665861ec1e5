"""Hand a program out to clients."""

from datetime import date, timedelta
from typing import Any

from django.contrib.auth.decorators import login_required
from django.db.models import Q, QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from accounts.access import access_read
from accounts.audit.preview import changed_nothing
from accounts.models import Client
from programs.document import Document, document_from_json
from programs.models import Program
from programs.services.assignment_dates import days_a_week, in_order, proposed_weekdays
from programs.services.assignment_make import AssignError, running_for
from programs.services.fitting import fitting_begin
from programs.views.assignment_forms import AssignForm
from programs.views.assignment_preview import preview_weeks

SHOWN = 60


@login_required
@require_http_methods(["GET", "POST"])
def program_assign_page(request: HttpRequest, program_id: int) -> HttpResponse:
    """Choose clients, first day and weekdays; look (search, dates) as often as needed; go on to the fitting."""
    program = access_read(Program.objects.all(), request.user, pk=program_id)
    document = document_from_json(program.document)
    values = request.POST if request.method == "POST" else request.GET
    chosen = _chosen(request, values.getlist("client"))
    form = _form(program, document, values)
    error = ""
    hand_out = request.method == "POST" and "look" not in request.POST
    if hand_out and form.is_valid():
        try:
            fitting = fitting_begin(
                program=program,
                clients=chosen,
                starts_on=form.cleaned_data["starts_on"],
                weekdays=form.weekdays(),
                end_running=form.cleaned_data["end_running"],
                author=request.user,
            )
        except AssignError as refused:
            error = str(refused)
        else:
            # By its name only: the page stands in a room above this one.
            return redirect("fitting", fitting.pk)
    context = _context(request, program, document, form, chosen, values.get("q", "").strip())
    status = 422 if error or (hand_out and form.errors) else 200
    return changed_nothing(render(request, "programs/assign.html", {**context, "error": error}, status=status))


def _chosen(request: HttpRequest, ids: list[str]) -> list[Client]:
    """Return the ticked clients. SECURITY: only those whose plan the user may write; others are left out in silence."""
    numbers = [int(one) for one in ids if one.isdecimal() and len(one) < 19]
    return list(Client.objects.writable_by(request.user).select_related("user").filter(pk__in=numbers))


def _form(program: Program, document: Document, values: Any) -> AssignForm:
    names = ["" for _ in range(days_a_week(document))]
    for block in reversed(document.blocks):
        for week in reversed(block.weeks):
            for number, day in enumerate(week.days):
                names[number] = day.name
    weekdays = proposed_weekdays(document, program.weekdays)
    known = {"document": document, "day_names": names, "weekdays": weekdays}
    if "starts_on" in values:
        return AssignForm(values, **known)
    today = timezone.localdate()
    # A client's week starts on Monday.
    return AssignForm(initial={"starts_on": today + timedelta(days=-today.weekday() % 7)}, **known)


def _context(
    request: HttpRequest, program: Program, document: Document, form: AssignForm, chosen: list[Client], words: str
) -> dict[str, Any]:
    starts_on, weekdays = _when(form)
    matching = _matching(request, words).exclude(pk__in=[client.pk for client in chosen])
    offered = list(matching[: SHOWN + 1])
    running = running_for([*chosen, *offered], timezone.localdate())
    return {
        "program": program,
        "form": form,
        "q": words,
        "chosen": [(client, running.get(client.pk, [])) for client in chosen],
        "offered": [(client, running.get(client.pk, [])) for client in offered[:SHOWN]],
        "more": len(offered) > SHOWN,
        "busy": [(client, running[client.pk]) for client in chosen if client.pk in running],
        "weeks": preview_weeks(document, starts_on, weekdays) if starts_on else [],
        "in_order": starts_on is None or in_order(weekdays, starts_on),
        "room": "programs",
    }


def _when(form: AssignForm) -> tuple[date | None, list[int]]:
    if form.is_bound:
        return (form.cleaned_data.get("starts_on"), form.weekdays()) if form.is_valid() else (None, [])
    return form.get_initial_for_field(form.fields["starts_on"], "starts_on"), [
        form.get_initial_for_field(field.field, field.name) for field in form.weekday_fields()
    ]


def _matching(request: HttpRequest, words: str) -> QuerySet[Client]:
    rows = Client.objects.writable_by(request.user).select_related("user")
    for word in words.split()[:6]:
        rows = rows.filter(Q(user__name__icontains=word) | Q(user__email__icontains=word))
    return rows
