"""Bring the program's present version to clients who follow an earlier one, after having seen what changes for whom."""

from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from accounts.access import access_read, note_opened
from programs.models import Program
from programs.services.program_write import StaleVersion
from programs.services.revision_apply import revision_bring
from programs.services.revision_load import behind, followings
from programs.services.revision_plan import revision_plan
from programs.views.revision_model import client_changes

PAGE = 30


@login_required
@require_http_methods(["GET", "POST"])
def program_bring(request: HttpRequest, program_id: int) -> HttpResponse:
    """Show what would change for each client whom the reader coaches; write it for those who are ticked."""
    program = access_read(Program.objects.all(), request.user, pk=program_id)
    if request.method == "GET":
        return _page(request, program)
    version, chosen = _numbers(request.POST.getlist("version")), _numbers(request.POST.getlist("assignment"))
    if not chosen or len(version) != 1:
        return _page(request, program, _("Tick at least one client."), 422)
    # SECURITY: only copies of clients whom the user coaches; others are left out in silence.
    assignments = list(behind(request.user, program).filter(pk__in=chosen))
    try:
        made = revision_bring(
            program=program,
            version=version[0],
            assignments=assignments,
            user=request.user,
            take=set(_numbers(request.POST.getlist("take"))),
        )
    except StaleVersion as stale:
        problem = _("The program was changed in between. This is what version %(version)s would change.")
        return _page(request, stale.program, problem % {"version": stale.program.version}, 409)
    words = ngettext("%(count)s client follows version %(version)s now.",
                     "%(count)s clients follow version %(version)s now.", len(made))  # fmt: skip
    messages.success(request, words % {"count": len(made), "version": version[0]})
    again = behind(request.user, program).exists()
    return redirect("program-bring" if again else "program-editor", program.pk)


def _numbers(texts: list[str]) -> list[int]:
    return [int(one) for one in texts if one.isascii() and one.isdecimal() and len(one) < 19]


def _page(request: HttpRequest, program: Program, problem: str = "", status: int = 200) -> HttpResponse:
    page = Paginator(behind(request.user, program), PAGE).get_page(request.GET.get("page"))
    for assignment in page.object_list:
        note_opened(request.user, assignment)
    plans = [revision_plan(one, program.version) for one in followings(program, page.object_list)]
    context: dict[str, Any] = {
        "program": program,
        "page": page,
        "clients": client_changes(plans),
        "problem": problem,
        "room": "programs",
    }
    return render(request, "programs/program_bring.html", context, status=status)
