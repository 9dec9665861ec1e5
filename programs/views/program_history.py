"""One program's history: every version, what differs between two of them, and an earlier one as it was."""

from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from accounts.access import access_read
from programs.document import document_from_json
from programs.document.difference import differences
from programs.models import Program, ProgramRevision
from programs.services.program_write import program_copy
from programs.services.revision_load import followed_versions
from programs.views.program_page import editor_context
from programs.views.revision_lines import blocks_of

PAGE = 25


def _read(request: HttpRequest, program_id: int) -> Program:
    return access_read(Program.objects.select_related("author"), request.user, pk=program_id)


def _can_write(request: HttpRequest, program: Program) -> bool:
    return Program.objects.writable_by(request.user).filter(pk=program.pk, archived_at=None).exists()


def _revision(program: Program, version: int) -> ProgramRevision:
    revision = program.revisions.select_related("author").filter(version=version).first()
    if revision is None:
        raise Http404
    return revision


@login_required
@require_GET
def program_history(request: HttpRequest, program_id: int) -> HttpResponse:
    """List every change of a program, latest first, and who follows which version."""
    program = _read(request, program_id)
    page = Paginator(program.revisions.select_related("author").defer("document"), PAGE).get_page(
        request.GET.get("page")
    )
    followed = dict(followed_versions(request.user, program))
    for revision in page:
        revision.followed = followed.get(revision.version, 0)
    context = {
        "program": program,
        "page": page,
        "can_write": _can_write(request, program),
        "room": "programs",
    }
    return render(request, "programs/program_history.html", context)


@login_required
@require_GET
def program_compare(request: HttpRequest, program_id: int) -> HttpResponse:
    """Say in words what differs between two versions, from the earlier to the later."""
    program = _read(request, program_id)
    asked = [request.GET.get(name, "") for name in ("from", "to")]
    numbers = sorted(int(one) for one in asked if one.isascii() and one.isdecimal() and len(one) < 10)
    if len(numbers) != 2:
        raise Http404
    first, last = (_revision(program, number) for number in numbers)
    changes = differences(document_from_json(first.document), document_from_json(last.document))
    context = {
        "program": program,
        "first": first,
        "last": last,
        "blocks": blocks_of(changes),
        "can_write": _can_write(request, program),
        "room": "programs",
    }
    return render(request, "programs/program_compare.html", context)


@login_required
@require_GET
def program_version(request: HttpRequest, program_id: int, version: int) -> HttpResponse:
    """Show an earlier version, to be read only."""
    program = _read(request, program_id)
    revision = _revision(program, version)
    now = program.version
    program.document = revision.document
    context: dict[str, Any] = editor_context(request, program, False, request.GET.get("week", ""))
    more = {
        "followed": [],
        "revision": revision,
        "now": now,
        "may_return": version != now and _can_write(request, program),
    }
    return render(request, "programs/program_version.html", context | more)


@login_required
@require_POST
def program_version_copy(request: HttpRequest, program_id: int, version: int) -> HttpResponse:
    """Make the reader's own program of a version."""
    program = _read(request, program_id)
    copy = program_copy(program=program, author=request.user, revision=_revision(program, version))
    messages.success(request, _("This is your own copy of version %(version)s.") % {"version": version})
    return redirect("program-editor", copy.pk)
