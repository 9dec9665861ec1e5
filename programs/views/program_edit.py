"""The editor: read a program, week by week, to be written in by those who may."""

from django.contrib.auth.decorators import login_required
from django.db.models import OuterRef, QuerySet, Subquery
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from accounts.access import access_read
from programs.models import DraftRun, Program
from programs.views.program_page import editor_context


def programs_of() -> QuerySet[Program]:
    return Program.objects.select_related("author")


@login_required
@require_GET
def program_editor(request: HttpRequest, program_id: int) -> HttpResponse:
    """Show one week of a program; to be written in by those who may."""
    draft = DraftRun.objects.visible_to(request.user).filter(program=OuterRef("pk")).order_by("pk").values("pk")[:1]
    program = access_read(programs_of().annotate(draft=Subquery(draft)), request.user, pk=program_id)
    can_write = Program.objects.writable_by(request.user).filter(pk=program.pk).exists() and not program.archived_at
    context = editor_context(request, program, can_write, request.GET.get("week", ""))
    part = "#editor" if request.htmx and not request.htmx.boosted else ""
    return render(request, f"programs/program_editor.html{part}", context)
