"""The drafts a coach has asked for, latest first."""

from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from accounts.access import access_membership
from programs.models import DraftRun

PAGE = 25


@login_required
@require_GET
def draft_list(request: HttpRequest) -> HttpResponse:
    """List drafts with their state and how far from the best they can be."""
    access_membership(request.user)
    rows = DraftRun.objects.visible_to(request.user).select_related("author", "client__user", "program")
    page = Paginator(rows, PAGE).get_page(request.GET.get("page"))
    for run in page:
        run.days = len(run.ask["days"])
        run.gap = 100 * run.result["gap"] if run.state == DraftRun.State.DONE else None
    return render(request, "programs/draft_list.html", {"page": page, "room": "programs"})
