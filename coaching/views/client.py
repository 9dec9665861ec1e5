"""The client page."""

import datetime as dt

from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from accounts import access
from coaching.forms import AcceptForm, DeskCommentForm, RefuseForm
from coaching.forms_answers import answer_form
from coaching.models import Decision
from coaching.reads.client import Question, client_desk
from coaching.recompute.calendar import WEEK, week_of
from coaching.views.board import read_week
from logbook.forms.comment_form import empty_comment

DECISIONS_A_PAGE = 20


def _form(question: Question) -> AcceptForm | None:
    """Return the form of a question; what to do instead of an exercise is chosen on the question's own page."""
    return None if question.prompt.kind == "swap" else answer_form(question.prompt, question.seen)


@login_required
@require_safe
def client_page(request: HttpRequest, client_id: int) -> HttpResponse:
    """Show one client's week: questions, flags, plan and done, what was said, volume, check-ins."""
    client = access.access_client_as_coach(request.user, client_id)
    today = client.user.today()
    week = read_week(request.GET.get("week"), today)
    desk = client_desk(client, request.user, week, today, request.GET.get("page"))
    context = {
        "room": "clients",
        "tab": "week",
        "client": client,
        "desk": desk,
        "words": desk.words,
        "week": week,
        "week_ends": week + WEEK - dt.timedelta(days=1),
        "previous": week - WEEK,
        "next": week + WEEK if week + WEEK <= today else None,
        "this_week": week_of(today),
        "today": today,
        "questions": [(one, _form(one)) for one in desk.questions],
        "refuse_form": RefuseForm(),
        "week_comment": empty_comment(DeskCommentForm, week=week),
    }
    return render(request, "coaching/client.html", context)


@login_required
@require_safe
def client_decisions(request: HttpRequest, client_id: int) -> HttpResponse:
    """List what was decided about a client, latest first."""
    client = access.access_client_as_coach(request.user, client_id)
    rows = Decision.objects.filter(client=client).select_related("coach").defer("proposal", "changes")
    page = Paginator(rows, DECISIONS_A_PAGE).get_page(request.GET.get("page"))
    context = {"room": "clients", "tab": "decisions", "client": client, "page": page}
    return render(request, "coaching/client_decisions.html", context)
