"""Programs as files, the tables to start from, and the published schema."""

from django.conf import settings
from django.contrib.auth.decorators import login_required
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from accounts.access import access_membership, access_read
from programs.models import Program
from programs.services.program_export import program_json
from programs.services.program_sheet import program_sheet, template_sheet
from programs.sheets.write import TYPES as SHEET_TYPES
from programs.sheets.write import WRITERS

TYPES = {"json": "application/json", **SHEET_TYPES}


@login_required
@require_safe
def program_export(request: HttpRequest, program_id: int) -> HttpResponse:
    """Say which files there are and what each holds."""
    program = access_read(Program.objects.all(), request.user, pk=program_id)
    return render(request, "programs/export.html", {"program": program, "room": "programs"})


@login_required
@require_safe
def program_file(request: HttpRequest, program_id: int, kind: str) -> HttpResponse:
    """Send a program as JSON, CSV or XLSX."""
    program = access_read(Program.objects.all(), request.user, pk=program_id)
    if kind not in TYPES:
        raise Http404
    content = program_json(program).encode() if kind == "json" else program_sheet(program, kind)
    return _file(content, slugify(program.name) or "program", kind)


@login_required
@require_safe
def program_template(request: HttpRequest, kind: str) -> HttpResponse:
    """Send the table to start from."""
    practice = access_membership(request.user).practice
    if kind not in WRITERS:
        raise Http404
    return _file(template_sheet(practice, kind), "program-template", kind)


@require_safe
def program_schema(request: HttpRequest) -> FileResponse:
    """Send the published schema of the JSON file."""
    path = settings.BASE_DIR / "docs" / "formats" / "program-1.schema.json"
    return FileResponse(path.open("rb"), content_type="application/schema+json")


def _file(content: bytes, name: str, kind: str) -> HttpResponse:
    answer = HttpResponse(content, content_type=TYPES[kind])
    answer["Content-Disposition"] = f'attachment; filename="{name}.{kind}"'
    answer["Cache-Control"] = "private, no-store"
    return answer
