"""Bring a program in from a file: read it, show what is wrong and let it be mended, save when nothing is."""

import json
from collections.abc import Mapping
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from accounts.access import access_membership
from accounts.audit.preview import changed_nothing
from accounts.models import Practice
from programs.document import DocumentError
from programs.exchange.columns import PROGRAM
from programs.exchange.dates import made_date
from programs.exchange.json_read import MOST_BYTES, load_json, read_program
from programs.models import Program
from programs.services.exercise_visible import exercises_of
from programs.services.program_import import JsonPlan, json_import, json_plan
from programs.services.program_sheet import SheetPlan, sheet_import, sheet_plan
from programs.sheets.csv_read import decoded
from programs.sheets.errors import FileError
from programs.sheets.read import read_table, upload_bytes
from programs.sheets.table import load_table
from programs.sheets.typed import mend, typed_cells, typed_names

NAME = 120
Plan = JsonPlan | SheetPlan


@login_required
@require_http_methods(["GET", "POST"])
def program_import(request: HttpRequest) -> HttpResponse:
    """Choose a file; then look at it, mend it, save it. It travels in the page: until it is saved, nothing is kept."""
    practice = access_membership(request.user).practice
    if request.method == "GET":
        return _choose(request)
    try:
        plan, carried, name = _plan(request, practice)
    except (FileError, DocumentError) as error:
        return _choose(request, str(error))
    name = request.POST.get("name", name).strip()
    wrong_name = "" if 0 < len(name) <= NAME else _("Give the program a name of at most 120 characters.")
    if request.POST.get("do") == "save" and plan.is_right and not wrong_name:
        program = _save(plan, practice, request.user, name)
        messages.success(request, _("The program is in. Look through it before you assign it."))
        return redirect("program-editor", program.pk)
    context = {
        "plan": plan,
        "carried": carried,
        "name": name,
        "wrong_name": wrong_name if "name" in request.POST else "",
        "names": list(exercises_of(practice).values_list("name", flat=True)) if plan.unknown else [],
        "choices": typed_names(request.POST) if "json" in carried else {},
        "room": "programs",
    }
    status = 200 if plan.is_right and not context["wrong_name"] else 422
    return changed_nothing(render(request, "programs/import_preview.html", context, status=status))


def _choose(request: HttpRequest, problem: str = "") -> HttpResponse:
    context = {"problem": problem, "most_rows": PROGRAM.most_rows, "room": "programs"}
    return render(request, "programs/import.html", context, status=422 if problem else 200)


def _plan(request: HttpRequest, practice: Practice) -> tuple[Plan, dict[str, str], str]:
    """Return what the file (or the preview that came back) would become, what the next preview carries, and a name."""
    if upload := request.FILES.get("file"):
        data = upload_bytes(upload)
        if data[:200].lstrip(b"\xef\xbb\xbf \t\r\n").startswith((b"{", b"[")):
            return _from_json(decoded(data[: MOST_BYTES + 1]), practice, {})
        return *_from_table(sheet_plan(read_table(data, (PROGRAM,)), practice)), _name_of(upload.name)
    if text := request.POST.get("sheet"):
        table = load_table(text, PROGRAM)
        change = _as_range if request.POST.get("do") == "dates" else str
        mend(table, typed_cells(request.POST, change), typed_names(request.POST))
        return *_from_table(sheet_plan(table, practice)), ""
    if text := request.POST.get("json"):
        return _from_json(text, practice, typed_names(request.POST))
    raise FileError(_("Choose a file."))


def _as_range(text: str) -> str:
    """Take a cell that became a date back to the range that it was."""
    made = made_date(text)
    return made.range if made else text


def _from_table(plan: SheetPlan) -> tuple[Plan, dict[str, str]]:
    return plan, {"sheet": plan.table.dump()}


def _from_json(text: str, practice: Practice, names: Mapping[str, str]) -> tuple[Plan, dict[str, str], str]:
    data = load_json(text)
    plan = json_plan(read_program(data), practice, names)
    if plan.problem:
        raise FileError(plan.problem)
    # Without line breaks: a form would turn them into others.
    return plan, {"json": json.dumps(data, ensure_ascii=False, separators=(",", ":"))}, plan.file.name


def _name_of(file: str) -> str:
    return " ".join(file.rpartition(".")[0].replace("_", " ").split())[:NAME]


def _save(plan: Plan, practice: Practice, author: Any, name: str) -> Program:
    known = {"practice": practice, "author": author, "name": name}
    return json_import(plan=plan, **known) if isinstance(plan, JsonPlan) else sheet_import(plan=plan, **known)
