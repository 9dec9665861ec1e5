"""A long table on its way into the log: how far it is, what became of it, and how to stop it."""

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST
from django_htmx.http import HttpResponseClientRefresh

from accounts import access
from logbook.models import LogImport, PastRun
from logbook.services.past_run import how_from_json, is_lost, past_again, past_stop
from logbook.services.past_seen import seen_from_json
from logbook.services.past_signs import saved_so_far
from logbook.views.past_look import how_of, look
from programs.sheets.typed import typed_cells, typed_names


@login_required
@require_http_methods(["GET", "POST"])
def past_run(request: HttpRequest, run_id: str) -> HttpResponse:
    """Show how many rows of how many are read or saved; then the table as it was read, to be mended and saved (POST);
    afterwards what was saved, or why nothing was."""
    rows = PastRun.objects.select_related("client__user", "client__practice", "saved", "saved__client")
    rows = rows.defer("file", "table", "typed", "seen")  # megabytes, every second
    if request.method == "POST":
        run = access.access_write(rows, request.user, pk=run_id)
        cells, names = typed_cells(request.POST), typed_names(request.POST)
        save = request.POST.get("do") == "save"
        how = how_of(request, run.client)
        past_again(run=run, by=request.user, how=how, cells=cells, names=names, save=save)
        return redirect("past-run", run.pk)
    run = access.access_read(rows, request.user, pk=run_id)
    polled = bool(request.htmx and not request.htmx.boosted)
    mine = run.client.user_id == request.user.pk
    context = {"run": run, "client": run.client, "mine": mine, "room": "profile" if mine else "clients"}
    if not run.unfinished:
        if polled:
            return HttpResponseClientRefresh()
        if run.state == PastRun.State.READ:
            seen, how = seen_from_json(run.seen), how_from_json(run.how)
            return look(request, run.client, seen, how, context | {"name": run.file_name})
        context["words"] = saved_words(run.saved) if run.saved else ""
        return render(request, "logbook/past/ended.html", context)
    context |= {"sign": saved_so_far(run.pk), "lost": is_lost(run, timezone.now())}
    if not polled:
        return render(request, "logbook/past/progress.html", context)
    # The part tells two counts and nothing of the client. The audit has the page; to write it again every second, it
    # would wait for the very transaction that is watched (SQLite has one writer).
    access.forget_opened(request.user)
    return render(request, "logbook/past/progress.html#progress", context)


@login_required
@require_POST
def past_run_stop(request: HttpRequest, run_id: str) -> HttpResponse:
    """Stop a table before it is saved."""
    run = access.access_write(PastRun.objects.all(), request.user, pk=run_id)
    past_stop(run=run)
    return redirect("past-run", run.pk)


def saved_words(done: LogImport) -> str:
    """Say what an import added."""
    if done.kind == LogImport.Kind.SETS:
        return _("%(sets)d sets are in the log now. Volume, strength and flags follow in the background.") % {
            "sets": done.sets
        }
    return _("%(check_ins)d check-ins and %(masses)d body masses are in the log now.") % {
        "check_ins": done.check_ins,
        "masses": done.body_masses,
    }
