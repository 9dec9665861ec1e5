"""Fit a client's running copy again."""

from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from accounts import access
from coaching.fitting.again import AgainDesk, AgainPage
from coaching.fitting.again_forms import SomeDaysForm
from coaching.fitting.forms import ChoiceForm
from programs.fit.model import Choice
from programs.models import Assignment
from programs.services.copy_rewrite import CopyError
from programs.services.fit_again import Refit, copy_fit_again
from programs.services.fit_since import since_fitted

# What is chosen can bring something else with it, and that again; after so many rounds it is shown as it is.
MOST_ROUNDS = 4


@dataclass(frozen=True, slots=True)
class Said:
    """What was sent, as far as it could be read. `news`: something is proposed that the page sent from did not show."""

    page: AgainPage
    form: ChoiceForm
    news: bool = False
    valid: bool = True


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def fit_again_page(request: HttpRequest, assignment_id: int) -> HttpResponse:
    """Show what the client's facts ask for now on what is to come; look again with other choices, or write it."""
    rows = Assignment.objects.select_related("client__user", "client__practice", "program")
    assignment = access.access_write(rows, request.user, pk=assignment_id)
    some = SomeDaysForm(
        request.GET if "last" in request.GET else None,
        practice=assignment.client.practice,
        initial={"first": assignment.client.user.today()},
    )
    if assignment.is_over(assignment.client.user.today()):
        return _render(request, assignment, some, problem=_("Its last day is over. Assign the program anew."))
    if some.is_bound and not some.is_valid():
        return _render(request, assignment, some, status=422)
    try:
        desk = AgainDesk(assignment, some.days() if some.is_bound else None)
    except CopyError as refused:
        return _render(request, assignment, some, problem=str(refused))
    if request.method != "POST":
        page = desk.page({}, _kept_unasked(desk))
        return _render(request, assignment, some, desk, Said(page, _form(desk, page)))
    said = _read(request.POST, desk)
    if not said.valid:
        return _render(request, assignment, some, desk, said, status=422)
    if "write" not in request.POST:
        return _render(request, assignment, some, desk, said)
    if request.POST.get("seen") != desk.seen:
        problem = _("What is known of the client, or the plan, changed meanwhile. Look again; nothing was written.")
        return _render(request, assignment, some, desk, said, problem=problem, status=422)
    if said.news:
        return _render(request, assignment, some, desk, said, status=422)
    try:
        done = _write(request, desk, said.page)
    except CopyError as refused:
        return _render(request, assignment, some, desk, said, problem=str(refused), status=422)
    messages.success(request, _done(done))
    return redirect("assignment-detail", assignment.pk)


def _write(request: HttpRequest, desk: AgainDesk, page: AgainPage) -> Refit:
    back = [one.line.row.pk for one in page.gone if one.back or one.must]
    return copy_fit_again(
        assignment=desk.assignment,
        version=desk.assignment.program_version,
        standing=[one.pk for one in desk.standing],
        adapted=desk.adapted(page.again),
        back=page.again.off(back),
        by=request.user,
        for_some_days=desk.days is not None,
    )


def _done(done: Refit) -> str:
    if not done.added and not done.back:
        return _("The plan stays as it is.")
    n = done.sessions
    return ngettext("Written; %(n)s session changed.", "Written; %(n)s sessions changed.", n) % {"n": n}


def _kept_unasked(desk: AgainDesk) -> set[int]:
    """Return what is not taken back unless the coach says so: what a coach chose otherwise than proposed."""
    return {one.pk for one in desk.standing if one.edited}


def _read(sent: QueryDict, desk: AgainDesk) -> Said:
    """Read the choices. What was not on the page that sent them is done as proposed, and said to be new."""
    shown = set(sent.getlist("shown"))
    ids = [one.pk for one in desk.standing]
    kept = {pk for pk in ids if f"gone-{pk}" in sent and f"back-{pk}" not in sent}
    choices: dict[str, dict[str, Any]] = {}
    for _round in range(MOST_ROUNDS):
        page = desk.page({name: Choice(**one) for name, one in choices.items()}, kept)
        form = _form(desk, page, sent, shown)
        if not form.is_valid():
            break
        now = choices | form.choices(choices)
        if now == choices:
            break
        choices = now
    news = not {one.id for one in page.again.proposals} <= shown
    valid = form.is_valid()
    return Said(page, _form(desk, page) if valid else form, news, valid)


def _form(desk: AgainDesk, page: AgainPage, sent: QueryDict | None = None, shown: set[str] | None = None) -> ChoiceForm:
    proposals = page.again.proposals
    return ChoiceForm(
        sent,
        proposals=tuple(one for one in proposals if shown is None or one.id in shown),
        exercises=desk.library.pool.exercises,
        unit=desk.facts.unit,
    )


def _render(
    request: HttpRequest,
    assignment: Assignment,
    some: SomeDaysForm,
    desk: AgainDesk | None = None,
    said: Said | None = None,
    *,
    problem: str = "",
    status: int = 200,
) -> HttpResponse:
    client = assignment.client
    since = since_fitted(client, [assignment], client.user.today()) if desk and not desk.days else []
    lines = {line.proposal.id: line for line in said.form.lines()} if said else {}
    context = {
        "room": "clients",
        "assignment": assignment,
        "client": client,
        "some": some,
        "desk": desk,
        "page": said.page if said else None,
        "proposed": [(one, lines.get(one.difference.proposal.id)) for one in said.page.proposed] if said else [],
        "refused": bool(said and not said.valid),
        "news": bool(said and said.news),
        "looked": request.method == "POST",
        "since": since[0] if since else None,
        "problem": problem,
    }
    return render(request, "coaching/fit_again.html", context, status=422 if problem and status == 200 else status)
