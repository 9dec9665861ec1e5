"""The practice's programs."""

from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.db.models import Count, Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from accounts.access import access_client_as_coach, access_membership
from programs.document import document_from_json
from programs.models import Assignment, Program
from programs.services.assignment_dates import days_a_week

PAGE = 25


@login_required
@require_GET
def program_list(request: HttpRequest) -> HttpResponse:
    """List programs with search; those put away on request. With `client` they are a choice for that client."""
    access_membership(request.user)
    number = request.GET.get("client", "")
    client = access_client_as_coach(request.user, int(number)) if number.isdecimal() and len(number) < 19 else None
    words, archived = request.GET.get("q", "").strip(), request.GET.get("archived") == "yes"
    # What is put away is not handed out.
    archived = archived and client is None
    rows = Program.objects.visible_to(request.user).select_related("author").filter(archived_at__isnull=not archived)
    for word in words.split()[:6]:
        rows = rows.filter(Q(name__icontains=word) | Q(note__icontains=word) | Q(author__name__icontains=word))
    running = Count("assignments", filter=~Q(assignments__status=Assignment.Status.ENDED))
    rows = rows.annotate(running=running).order_by("-updated_at", "pk")
    page = Paginator(rows, PAGE).get_page(request.GET.get("page"))
    for program in page:
        document = document_from_json(program.document)
        program.weeks = sum(len(block.weeks) for block in document.blocks)
        program.days = days_a_week(document)
    context = {"page": page, "q": words, "archived": archived, "client": client, "room": "programs"}
    part = "#rows" if request.htmx and not request.htmx.boosted else ""
    return render(request, f"programs/program_list.html{part}", context)
