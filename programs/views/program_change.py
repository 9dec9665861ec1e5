"""Change a program, one operation at a time."""

from collections.abc import Mapping
from urllib.parse import urlencode

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from accounts.access import access_write
from accounts.audit.preview import changed_nothing
from programs.document import Document
from programs.document.edits import Operation
from programs.document.errors import EditError
from programs.document.find import keys, slots_of, week_places
from programs.models import Program
from programs.services.program_write import StaleVersion
from programs.services.week_view import weeks_by_key
from programs.views.program_edit import programs_of
from programs.views.program_model import Problem, only
from programs.views.program_operation import operation_from, target_of
from programs.views.program_page import editor_context
from programs.views.program_run import Outcome, run
from programs.views.program_weeks import weeks_context


@login_required
@require_POST
def program_change(request: HttpRequest, program_id: int) -> HttpResponse:
    """Make one change. 409 when someone saved in between, 422 when it cannot be made; what was typed is shown again."""
    program = access_write(programs_of(), request.user, pk=program_id)
    operation, version = Operation(""), program.version
    try:
        operation = operation_from(request.POST)
        outcome = run(program, request.user, operation, request.POST)
    except StaleVersion as stale:
        return _conflict(request, stale)
    except EditError as error:
        return _refused(request, program, operation, error)
    answer = _saved(request, program, outcome, operation)
    # What is only tried is nobody's change until it is kept.
    return changed_nothing(answer) if outcome.version == version else answer


def _saved(request: HttpRequest, program: Program, outcome: Outcome, operation: Operation) -> HttpResponse:
    before, after = outcome.before, outcome.after
    new = keys(after) - keys(before)
    weeks = (place.node.key for place in week_places(after))
    # Who adds or copies a week wants to write in it.
    week = next((key for key in weeks if key in new), request.POST.get("week", ""))
    on_weeks = request.POST.get("page") == "weeks"
    if on_weeks or not request.htmx:
        said = _("Tried; version %(version)s is kept.") if outcome.trying else _("Saved as version %(version)s.")
        messages.success(request, said % {"version": outcome.version})
        return redirect(_weeks_address(program, request.POST) if on_weeks else _address(program, week))
    if not outcome.trying:
        program.document, program.version = outcome.stored, outcome.version
    new_slots = [slot.key for slot in slots_of(after) if slot.key in new]
    context = editor_context(request, program, True, week, document=after)
    if request.POST.get("answer") == "quiet":
        # The page shows what was there before: it is told what has changed since, and what its own words have become.
        changed = changed_slots(before, after, context["week"].key) | {target_of(operation)}
        context["days"] = only(context["days"], changed)
    return render(
        request,
        "programs/program_editor.html#editor",
        {**context, "new_slot": new_slots[0] if len(new_slots) == 1 else "", "summary": outcome.summary},
    )


def changed_slots(before: Document, after: Document, week: str) -> set[str]:
    """Return the keys of a week's slots that are new or not what they were."""
    was, now = weeks_by_key(before).get(week), weeks_by_key(after).get(week)
    if was is None or now is None:
        return set()
    there = {slot.key: slot for day in was[2].days for slot in day.slots}
    return {slot.key for day in now[2].days for slot in day.slots if there.get(slot.key) != slot}


def _refused(request: HttpRequest, program: Program, operation: Operation, error: EditError) -> HttpResponse:
    problem = Problem(target_of(operation), error.field, error.message, request.POST.dict())
    if request.htmx:
        body = {"key": problem.key, "field": problem.field, "message": problem.message}
        return JsonResponse(body, status=422)
    if request.POST.get("page") == "weeks":
        context = weeks_context(request, program, not program.archived_at, request.POST.get("block", ""), problem)
        return render(request, "programs/program_weeks.html", context, status=422)
    context = editor_context(request, program, not program.archived_at, request.POST.get("week", ""), problem)
    return render(request, "programs/program_editor.html", context, status=422)


def _conflict(request: HttpRequest, stale: StaleVersion) -> HttpResponse:
    """Say who changed what; the form in the answer makes the same change on the newer version."""
    again = {name: value for name, value in request.POST.items() if name not in {"csrfmiddlewaretoken", "base_version"}}
    if again.get("do") == "keep":
        again["do"] = "keep;over=yes"
    context = {
        "program": stale.program,
        "since": stale.since,
        "again": again,
        # To undo on the newer version would take back the other person's work.
        "keeping": again.get("do", "").startswith("keep"),
        "can_repeat": again.get("do", "").partition(";")[0] not in {"undo", "redo", "return"},
        "address": _weeks_address(stale.program, request.POST)
        if request.POST.get("page") == "weeks"
        else _address(stale.program, request.POST.get("week", "")),
        "room": "programs",
    }
    template = "programs/program_conflict.html" + ("#conflict" if request.htmx else "")
    return render(request, template, context, status=409)


def _address(program: Program, week: str) -> str:
    return f"{reverse('program-editor', args=[program.pk])}?{urlencode({'week': week})}"


def _weeks_address(program: Program, post: Mapping[str, str]) -> str:
    query = urlencode({"block": post.get("block", "")})
    return f"{reverse('program-weeks', args=[program.pk])}?{query}#weeks"
