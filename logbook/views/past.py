"""Bring past training in from a table: read it, show what is wrong and let it be mended, save when nothing is."""

from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from accounts import access
from accounts.models import Client
from logbook.models import LogImport, PastRun
from logbook.past.columns import BY_KEY, LAYOUTS, MOST_ROWS
from logbook.services.past_plan import past_plan
from logbook.services.past_run import is_long, may_be_long, past_look, past_start
from logbook.services.past_save import past_import
from logbook.services.past_seen import seen_of
from logbook.services.past_template import template_past
from logbook.services.past_undo import Touched, past_take_back
from logbook.views.past_look import how_of, look
from logbook.views.past_run import saved_words
from programs.sheets.errors import FileError
from programs.sheets.packed import pack, unpack
from programs.sheets.read import read_table, upload_bytes
from programs.sheets.table import Table
from programs.sheets.typed import mend, typed_cells, typed_names
from programs.sheets.write import TYPES, WRITERS

PER_PAGE = 20


@login_required
@require_http_methods(["GET", "POST"])
def client_past(request: HttpRequest, client_id: int) -> HttpResponse:
    """A coach brings in what a client did before."""
    return _bring(request, access.access_client_as_coach(request.user, client_id), {"room": "clients", "mine": False})


@login_required
@require_http_methods(["GET", "POST"])
def own_past(request: HttpRequest) -> HttpResponse:
    """A client brings in what they did before."""
    return _bring(request, access.access_own_client(request.user), {"room": "profile", "mine": True})


def _bring(request: HttpRequest, client: Client, context: dict[str, Any]) -> HttpResponse:
    """Choose a file; then look at it, mend it, save it. It travels in the page: until it is saved, nothing is kept. A
    long one is read by a worker, and kept until it is saved or discarded (views/past_run.py)."""
    context |= {"client": client}
    if request.method == "GET":
        return _choose(request, client, context)
    how = how_of(request, client)
    try:
        upload = request.FILES.get("file")
        data = upload_bytes(upload) if upload else b""
        if upload and may_be_long(data):
            name = str(upload.name or "")
            run = past_look(client=client, by=request.user, data=data, how=how, file_name=name)
            return redirect("past-run", run.pk)
        table, name = (read_table(data, LAYOUTS), str(upload.name or "")[:120]) if upload else _table(request)
        if request.POST.get("do") == "save" and is_long(table):
            run = past_start(client=client, by=request.user, table=table, how=how, file_name=name)
            return redirect("past-run", run.pk)
        if request.POST.get("do") == "save" and past_plan(table, client, how).is_right:
            done = past_import(client=client, by=request.user, table=table, how=how, file_name=name)
            messages.success(request, saved_words(done))
            return redirect(request.path)
        plan, packed = past_plan(table, client, how), pack(table)
    except FileError as error:
        return _choose(request, client, context, str(error))
    return look(request, client, seen_of(plan), how, context | {"packed": packed, "name": name})


def _choose(request: HttpRequest, client: Client, context: dict[str, Any], problem: str = "") -> HttpResponse:
    rows = LogImport.objects.filter(client=client).select_related("by", "taken_back_by")
    context |= {
        "problem": problem,
        "most_rows": MOST_ROWS,
        "on_their_way": PastRun.objects.standing().filter(client=client),
        "page": Paginator(rows, PER_PAGE).get_page(request.GET.get("page")),
    }
    return render(request, "logbook/past/choose.html", context, status=422 if problem else 200)


def _table(request: HttpRequest) -> tuple[Table, str]:
    """Return the table of the preview that came back with what was mended; and the file's name."""
    layout, text = BY_KEY.get(request.POST.get("layout", "")), request.POST.get("table", "")
    if layout is None or not text:
        raise FileError("no_file")
    table = unpack(text, layout)
    mend(table, typed_cells(request.POST), typed_names(request.POST))
    return table, request.POST.get("name", "")[:120]


@login_required
@require_POST
def past_back(request: HttpRequest, import_id: str) -> HttpResponse:
    """Take an import back whole."""
    row = access.access_write(LogImport.objects.select_related("client"), request.user, pk=import_id)
    try:
        past_take_back(row=row, by=request.user)
        messages.success(request, _("Taken back: the log is as it was before."))
    except Touched as error:
        messages.error(request, str(error))
    return redirect("own-past") if row.client.user_id == request.user.pk else redirect("client-past", row.client_id)


@login_required
@require_safe
def past_template(request: HttpRequest, layout: str, kind: str) -> HttpResponse:
    """Send a table to start from."""
    practice = access.practice_of(request.user)
    if practice is None or layout not in BY_KEY or kind not in WRITERS:
        raise Http404
    answer = HttpResponse(template_past(practice, layout, kind), content_type=TYPES[kind])
    answer["Content-Disposition"] = f'attachment; filename="past-{layout}.{kind}"'
    answer["Cache-Control"] = "private, no-store"
    return answer
