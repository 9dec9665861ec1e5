"""One draft: its progress, its result, and what can be done with it."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST
from django_htmx.http import HttpResponseClientRefresh

from accounts.access import access_read, access_write
from programs.models import DraftRun
from programs.services.draft_ask import Ask, ask_from_json
from programs.services.draft_program import ExerciseGone, draft_make_program
from programs.services.draft_relax import can_apply, relaxed
from programs.services.draft_run import AT_ONCE, TooMany, draft_start, draft_stop, is_lost, waits_for
from programs.views.draft_page import clash_context, result_context

State = DraftRun.State


@login_required
@require_GET
def draft_detail(request: HttpRequest, run_id: int) -> HttpResponse:
    """Show a draft: while it is at work its progress, afterwards the week, the clash, or why there is neither."""
    run = access_read(DraftRun.objects.select_related("author", "client__user", "program"), request.user, pk=run_id)
    polled = bool(request.htmx and not request.htmx.boosted)
    context = {"run": run, "room": "programs", "lost": is_lost(run, timezone.now())}
    if run.unfinished:
        gap = run.progress.get("gap")
        context["percent"] = None if gap is None else 100 * gap
        # By the clock on the wall: the solver's own stands still while the outcome is written up.
        context["elapsed"] = (timezone.now() - run.started_at).total_seconds() if run.started_at else 0
        context["waits_for"] = waits_for(run, timezone.now())
        part = "#progress" if polled else ""
        return render(request, f"programs/draft_progress.html{part}", context)
    if polled:
        return HttpResponseClientRefresh()
    if run.state == State.DONE:
        return render(request, "programs/draft_result.html", {**context, **result_context(run)})
    if run.state == State.CLASH:
        return render(request, "programs/draft_clash.html", {**context, **clash_context(run)})
    return render(request, "programs/draft_ended.html", context)


@login_required
@require_POST
def draft_cancel(request: HttpRequest, run_id: int) -> HttpResponse:
    """Stop a draft; the best week so far is kept."""
    run = access_write(DraftRun.objects.all(), request.user, pk=run_id)
    draft_stop(run=run)
    return redirect("draft-detail", run.pk)


@login_required
@require_POST
def draft_program(request: HttpRequest, run_id: int) -> HttpResponse:
    """Make the drafted week an ordinary program and open it."""
    run = access_write(DraftRun.objects.all(), request.user, pk=run_id)
    if run.state != State.DONE:
        raise Http404
    try:
        program = draft_make_program(run=run, author=request.user)
    except ExerciseGone:
        messages.error(request, _("An exercise of this draft does not exist any more. Draft the week again."))
        return redirect("draft-detail", run.pk)
    return redirect("program-editor", program.pk)


@login_required
@require_POST
def draft_relax(request: HttpRequest, run_id: int) -> HttpResponse:
    """Apply one of the relaxations that a clash proposes, and draft again."""
    run = access_write(DraftRun.objects.select_related("client"), request.user, pk=run_id)
    number = request.POST.get("relaxation", "")
    choices = run.result.get("relaxations", []) if run.state == State.CLASH else []
    if not (number.isascii() and number.isdigit() and int(number) < len(choices) and can_apply(choices[int(number)])):
        raise Http404
    return _start(request, run, relaxed(ask_from_json(run.ask), choices[int(number)]))


@login_required
@require_POST
def draft_again(request: HttpRequest, run_id: int) -> HttpResponse:
    """Draft the same request again."""
    run = access_write(DraftRun.objects.select_related("client"), request.user, pk=run_id)
    return _start(request, run, ask_from_json(run.ask))


def _start(request: HttpRequest, run: DraftRun, ask: Ask) -> HttpResponse:
    try:
        new = draft_start(practice=run.practice, author=request.user, client=run.client, name=run.name, ask=ask)
    except TooMany:
        messages.error(
            request, _("%(count)s drafts are at work already. Wait for one, or stop it.") % {"count": AT_ONCE}
        )
        return redirect("draft-detail", run.pk)
    return redirect("draft-detail", new.pk)
