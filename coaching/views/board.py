"""The weekly board."""

import datetime as dt

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from accounts import access
from accounts.models import Invitation
from coaching.forms_board import BoardFilter, ViewForm
from coaching.models import SavedView
from coaching.reads.board import ROWS_A_PAGE, Wanted, board
from coaching.reads.sieves import sieves_of
from coaching.recompute.calendar import WEEK, week_of
from coaching.services.saved_view import MOST_VIEWS, TooManyViews, saved_view_remove, saved_view_save


def read_week(text: str | None, today: dt.date) -> dt.date:
    """Return the Monday of the week that holds the day `text`; this week's when it is no day, or lies ahead."""
    try:
        day = dt.date.fromisoformat(text or "")
    except ValueError:
        day = today
    return week_of(min(day, today))


@login_required
@require_safe
def week_board(request: HttpRequest) -> HttpResponse:
    """Show one row a client, most urgent first."""
    membership = access.access_membership(request.user)
    now = timezone.now()
    today = timezone.localdate(now)
    week = read_week(request.GET.get("week"), today)
    sieves = sieves_of(membership)
    form = BoardFilter(request.GET, coaches=sieves.coaches, label_suffix="")
    chosen = form.chosen()
    wanted = Wanted(
        week=week,
        today=today,
        now=now,
        name=chosen.get("q", ""),
        attention=bool(chosen.get("attention")),
        coach_id=int(chosen["coach"]) if chosen.get("coach") else None,
        kind=chosen.get("kind", ""),
        group=chosen.get("group", ""),
        rows=int(chosen.get("rows", ROWS_A_PAGE)),
    )
    found = board(request.user, wanted, request.GET.get("page"))
    context = {
        "room": "board",
        "board": found,
        "page": found.page,
        "words": found.words,
        "form": form,
        "sifted": form.sifts(),
        "query": form.query(),
        "views": sieves.views,
        "view_form": ViewForm(label_suffix=""),
        "week": week,
        "week_ends": week + dt.timedelta(days=6),
        "previous": week - WEEK,
        "next": week + WEEK if week + WEEK <= today else None,
        "this_week": week_of(today),
    }
    if not found.rows:  # whoever begins reads where it stands with those they invited
        open_ones = Invitation.objects.visible_to(request.user).open().filter(kind=Invitation.Kind.CLIENT)
        context["invited"] = open_ones.count()
    return render(request, "coaching/board.html", context)


@login_required
@require_POST
def view_save(request: HttpRequest) -> HttpResponse:
    """Keep how the board is sifted, under a name."""
    membership = access.access_membership(request.user)
    asked = BoardFilter(QueryDict(request.POST.get("query", "")), coaches=sieves_of(membership).coaches)
    form = ViewForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("Give the view a name of at most 40 characters."))
    else:
        try:
            saved_view_save(membership=membership, name=form.cleaned_data["name"], query=asked.query())
        except TooManyViews:
            messages.error(request, _("%(n)s views are kept already: remove one first.") % {"n": MOST_VIEWS})
        else:
            messages.success(request, _("Kept: %(name)s.") % {"name": form.cleaned_data["name"]})
    return redirect(f"{reverse('board')}?{asked.query()}")


@login_required
@require_POST
def view_remove(request: HttpRequest, view_id: int) -> HttpResponse:
    """Drop a view of one's own; the door is one's own membership."""
    own = SavedView.objects.filter(membership=access.access_membership(request.user))
    saved_view_remove(view=get_object_or_404(own, pk=view_id))
    return redirect("board")
