"""What stands around a program's content: make it, name it, copy it, put it away, say for whom it is thought."""

from urllib.parse import urlencode

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from accounts.access import access_membership, access_read, access_write
from programs.document import document_from_json
from programs.models import Program
from programs.services.assignment_dates import days_a_week
from programs.services.program_write import program_archive, program_copy, program_create, program_describe
from programs.services.targets import ASKED
from programs.views.program_forms import NewProgramForm, OutlookForm, ProgramForm
from programs.views.program_page import editor_context, outlooks


@login_required
@require_http_methods(["GET", "POST"])
def program_add(request: HttpRequest) -> HttpResponse:
    """Start a program."""
    membership = access_membership(request.user)
    form = NewProgramForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        program = program_create(practice=membership.practice, author=request.user, **form.cleaned_data)
        return redirect("program-editor", program.pk)
    return _form(request, form, None)


@login_required
@require_http_methods(["GET", "POST"])
def program_settings(request: HttpRequest, program_id: int) -> HttpResponse:
    """Change a program's name, note and for whom it is written."""
    program = access_write(Program.objects.all(), request.user, pk=program_id)
    known = {"name": program.name, "note": program.note, "written_for": program.written_for}
    form = ProgramForm(request.POST or None, initial=known)
    if request.method == "POST" and form.is_valid():
        program_describe(program=program, **form.cleaned_data)
        messages.success(request, _("Saved."))
        return redirect("program-editor", program.pk)
    return _form(request, form, program)


@login_required
@require_POST
def program_outlook(request: HttpRequest, program_id: int) -> HttpResponse:
    """Keep the training status and weekdays by which the tally judges."""
    program = access_write(Program.objects.all(), request.user, pk=program_id)
    form = OutlookForm(request.POST, days=days_a_week(document_from_json(program.document)), outlooks=outlooks(program))
    week = request.POST.get("week", "")
    if not form.is_valid():
        message = next(iter(form.errors.values()))[0]
        if request.htmx:
            return JsonResponse({"key": "outlook", "field": "", "message": message}, status=422)
        messages.error(request, message)
    else:
        minutes = form.cleaned_data["session_minutes"] or program.session_minutes
        by = form.cleaned_data["written_for"]
        # By what was asked for: the training status that it is written for stays.
        judged = {"judge_by_asked": True} if by == ASKED else {"written_for": by, "judge_by_asked": False}
        fields = {**judged, "session_minutes": minutes}
        program_describe(program=program, weekdays=form.weekdays(), **fields)
        if request.htmx:
            return render(request, "programs/program_editor.html#editor", editor_context(request, program, True, week))
    return redirect(f"{reverse('program-editor', args=[program.pk])}?{urlencode({'week': week})}")


@login_required
@require_POST
def program_duplicate(request: HttpRequest, program_id: int) -> HttpResponse:
    """Make the reader's own copy."""
    program = access_read(Program.objects.all(), request.user, pk=program_id)
    copy = program_copy(program=program, author=request.user)
    messages.success(request, _("This is your own copy. The first one stays as it is."))
    return redirect("program-editor", copy.pk)


@login_required
@require_POST
def program_put_away(request: HttpRequest, program_id: int) -> HttpResponse:
    """Put a program into the archive, or take it out."""
    program = access_write(Program.objects.all(), request.user, pk=program_id)
    archived = request.POST.get("archived") == "yes"
    program_archive(program=program, archived=archived)
    messages.success(
        request, _("Put away. What is assigned from it goes on.") if archived else _("Taken out of the archive.")
    )
    return redirect("program-list")


def _form(request: HttpRequest, form: ProgramForm, program: Program | None) -> HttpResponse:
    status = 422 if form.errors else 200
    context = {"form": form, "program": program, "room": "programs"}
    return render(request, "programs/program_form.html", context, status=status)
