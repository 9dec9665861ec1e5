"""One client's copy of a program: its dates, and what can be done with it."""

from datetime import date
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from accounts.access import access_read, access_write
from programs.models import Assignment
from programs.services.adaptation_lines import lines_of
from programs.services.assignment_end import EndError, assignment_end, assignment_reopen
from programs.services.assignment_move import MoveError, assignment_pause, assignment_resume, assignment_shift
from programs.services.plan_weeks import plan_weeks


def assignments_of() -> QuerySet[Assignment]:
    return Assignment.objects.select_related("client__user", "program", "created_by")


@login_required
@require_GET
def assignment_page(request: HttpRequest, assignment_id: int) -> HttpResponse:
    """Show the dated sessions from this week on (or from the week of `from`); coaches also see what they can change."""
    return _page(request, access_read(assignments_of(), request.user, pk=assignment_id))


@login_required
@require_POST
def assignment_change(request: HttpRequest, assignment_id: int) -> HttpResponse:
    """Pause, resume, shift or end."""
    assignment = access_write(assignments_of(), request.user, pk=assignment_id)
    action = request.POST.get("action", "")
    try:
        done = _change(assignment, action, request.POST)
    except ValueError as error:
        message = str(error) if isinstance(error, MoveError | EndError) else _("Give a date and a number of days.")
        return _page(request, assignment, {"action": action, "message": message})
    messages.success(request, done)
    return redirect("assignment-detail", assignment.pk)


def _change(assignment: Assignment, action: str, values: Any) -> str:
    if assignment.is_over(assignment.client.user.today()):
        raise EndError(_("Its last day is over. Assign the program anew."))
    if action == "reopen":
        assignment_reopen(assignment=assignment)
        return _("Running on, without a last day.")
    since = date.fromisoformat(values.get("since", ""))
    match action:
        case "pause":
            assignment_pause(assignment=assignment, since=since)
            return _("Paused. Nothing is due until you resume it.")
        case "resume":
            assignment_resume(assignment=assignment, since=since)
            return _("Running again. What was left moved by whole weeks.")
        case "shift":
            assignment_shift(assignment=assignment, since=since, days=int(values.get("days", "")))
            return _("Moved.")
        case "end":
            assignment_end(assignment=assignment, last_day=since)
            return _("Ended.")
    raise MoveError(_("That change is not known."))


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _page(request: HttpRequest, assignment: Assignment, problem: dict[str, str] | None = None) -> HttpResponse:
    today = assignment.client.user.today()
    can_write = Assignment.objects.writable_by(request.user).filter(pk=assignment.pk).exists()
    context = {
        "assignment": assignment,
        "plan": plan_weeks(assignment, today, _day(request.GET.get("from", ""))),
        "can_write": can_write,
        "today": today,
        "can_change": can_write and not assignment.is_over(today),
        "latest": assignment.revisions.filter(fitting=False).select_related("made_by").first(),
        "since": request.POST.get("since") or today.isoformat(),
        "days": request.POST.get("days", "7"),
        "problem": problem,
        "adapted": lines_of(assignment, assignment.client.user.load_unit),
        "room": "clients",
    }
    return render(request, "programs/assign_detail.html", context, status=422 if problem else 200)
