"""The weekly board."""

import datetime as dt

from django import forms
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from accounts import access
from accounts.models import Membership
from coaching.reads.board import Wanted, board, coaches_of
from coaching.recompute.calendar import WEEK, week_of


class BoardFilter(forms.Form):
    """What the rows are sifted by; a value that makes no sense sifts nothing."""

    q = forms.CharField(label=_("Name"), max_length=80, required=False)
    coach = forms.ChoiceField(label=_("Coach"), required=False)
    attention = forms.BooleanField(label=_("Only those who need attention"), required=False)

    def __init__(self, *args: object, coaches: list[Membership], **kwargs: object) -> None:
        super().__init__(*args, **kwargs)
        if coaches:
            choices = [("", _("All coaches")), *((str(row.pk), str(row.user)) for row in coaches)]
            self.fields["coach"].choices = choices
        else:
            del self.fields["coach"]


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
    access.access_membership(request.user)
    today = timezone.localdate()
    week = read_week(request.GET.get("week"), today)
    form = BoardFilter(request.GET, coaches=coaches_of(request.user), label_suffix="")
    chosen = form.cleaned_data if form.is_valid() else {}
    wanted = Wanted(
        week=week,
        today=today,
        name=chosen.get("q", ""),
        attention=chosen.get("attention", False),
        coach_id=int(chosen["coach"]) if chosen.get("coach") else None,
    )
    found = board(request.user, wanted, request.GET.get("page"))
    context = {
        "room": "board",
        "board": found,
        "page": found.page,
        "words": found.words,
        "form": form,
        "sifted": any(chosen.values()),
        "week": week,
        "week_ends": week + dt.timedelta(days=6),
        "previous": week - WEEK,
        "next": week + WEEK if week + WEEK <= today else None,
        "this_week": week_of(today),
    }
    return render(request, "coaching/board.html", context)
