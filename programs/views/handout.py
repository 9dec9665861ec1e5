"""Hand-outs: the whole program on paper, for a coach, and for the client whose copy it is."""

from typing import Any

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from accounts.access import access_read
from programs.handout.build import MOST_LINES, Handout, build_handout
from programs.handout.options import PAPERS, Options, read_options
from programs.handout.pdf import make_pdf, pdf_is_possible
from programs.handout.source import Source, source_of_assignment, source_of_program
from programs.models import Assignment, Program
from programs.views.assignment_detail import assignments_of


@login_required
@require_safe
def program_handout(request: HttpRequest, program_id: int, file: str = "") -> HttpResponse:
    """Show a program for paper, or send it as a PDF."""
    program = access_read(Program.objects.select_related("practice"), request.user, pk=program_id)
    source = source_of_program(program)
    options = read_options(request.GET, len(source.weeks()))
    handout = build_handout(source, options, program.practice)
    links = reverse("program-handout-links", args=[program.pk])
    return _answer(request, handout, options, file, {"program": program, "room": "programs", "links_url": links})


@login_required
@require_safe
def assignment_handout(request: HttpRequest, assignment_id: int, file: str = "") -> HttpResponse:
    """Show a client's copy for paper, from the week that runs, or send it as a PDF."""
    rows = assignments_of().select_related("client__practice")
    assignment = access_read(rows, request.user, pk=assignment_id)
    source = source_of_assignment(assignment)
    options = _options_of_copy(request, source, assignment)
    handout = build_handout(source, options, assignment.client.practice, client=str(assignment.client))
    can_write = Assignment.objects.writable_by(request.user).filter(pk=assignment.pk).exists()
    context = {"assignment": assignment, "room": "clients" if can_write else "", "can_write": can_write}
    if can_write:
        context["links_url"] = reverse("assignment-handout-links", args=[assignment.pk])
    return _answer(request, handout, options, file, context)


def _options_of_copy(request: HttpRequest, source: Source, assignment: Assignment) -> Options:
    start = source.first_week_from(assignment.client.user.today())
    return read_options(request.GET, len(source.weeks()), start)


def _answer(
    request: HttpRequest, handout: Handout, options: Options, file: str, context: dict[str, Any]
) -> HttpResponse:
    context |= {
        "handout": handout,
        "options": options,
        "papers": PAPERS,
        "most_lines": MOST_LINES,
        "pdf_is_possible": pdf_is_possible(),
    }
    if file and pdf_is_possible() and not handout.too_long:
        return pdf_answer(handout, options)
    # What cannot be sent as a file is told on the page.
    return render(request, "programs/handout.html", context, status=409 if file else 200)


def pdf_answer(handout: Handout, options: Options) -> HttpResponse:
    """Send the hand-out as a file named after the program."""
    html = render_to_string("programs/handout_pdf.html", {"handout": handout})
    answer = HttpResponse(make_pdf(html, options.paper), content_type="application/pdf")
    name = slugify(handout.title) or _("program")
    answer["Content-Disposition"] = f'attachment; filename="{name}.pdf"'
    answer["Cache-Control"] = "private, no-store"
    return answer
