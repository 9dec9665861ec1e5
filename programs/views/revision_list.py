"""The versions that were brought to one client's copy: what each changed, what was left alone, and taking it back."""

from datetime import date
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Page, Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from accounts.access import access_read, access_write
from programs.models import Assignment, AssignmentRevision, SessionRevision
from programs.services.revision_plan import LeftAlone
from programs.services.revision_undo import UndoError, revision_undo
from programs.views.assignment_detail import assignments_of
from programs.views.revision_lines import SessionChange, exercise_ids, lines_of, names_of
from programs.views.revision_model import alone_of

PAGE = 10


@login_required
@require_GET
def assignment_revisions(request: HttpRequest, assignment_id: int) -> HttpResponse:
    """List the versions brought, the latest first; the client reads what the coach reads."""
    return _page(request, access_read(assignments_of(), request.user, pk=assignment_id))


@login_required
@require_POST
def assignment_revision_undo(request: HttpRequest, revision_id: int) -> HttpResponse:
    """Take the latest version brought back, as far as nothing is logged since."""
    rows = AssignmentRevision.objects.select_related("assignment__client__user")
    revision = access_write(rows, request.user, pk=revision_id)
    try:
        revision_undo(revision=revision, user=request.user)
    except UndoError as error:
        return _page(request, assignments_of().get(pk=revision.assignment_id), str(error))
    messages.success(
        request, _("Taken back: this copy follows version %(version)s again.") % {"version": revision.from_version}
    )
    return redirect("assignment-revisions", revision.assignment_id)


def _page(request: HttpRequest, assignment: Assignment, problem: str = "") -> HttpResponse:
    rows = assignment.revisions.select_related("made_by", "undone_by").prefetch_related("sessions__session")
    page = Paginator(rows, PAGE).get_page(request.GET.get("page"))
    changes = {one.pk: [_change(record) for record in one.sessions.all()] for one in page}
    names = names_of(exercise_ids(change for some in changes.values() for change in some))
    latest = _latest(page)
    for one in page:
        one.lines = lines_of(changes[one.pk], names)
        one.alone = alone_of(
            LeftAlone(date.fromisoformat(row["date"]) if row["date"] else None, row["day"], row["why"])
            for row in one.left_alone
        )
        records = one.sessions.all()
        one.withdrawn = [record for record in records if record.withdrawn_at]
        one.kept = [record for record in records if record.kept]
        one.is_latest = one.pk == latest
    context: dict[str, Any] = {
        "assignment": assignment,
        "page": page,
        "can_write": Assignment.objects.writable_by(request.user).filter(pk=assignment.pk).exists(),
        "problem": problem,
        "room": "clients",
    }
    return render(request, "programs/assign_revisions.html", context, status=422 if problem else 200)


def _latest(page: Page) -> int | None:
    """Return the version that may be taken back: the newest that was not. What fitting wrote is undone elsewhere."""
    if page.number != 1:
        return None
    return next((one.pk for one in page if one.undone_at is None and not one.fitting), None)


def _change(record: SessionRevision) -> SessionChange:
    before, after, session = record.before, record.after, record.session
    moved = before is not None and "date" in before
    return SessionChange(
        kind="made" if before is None else "cancelled" if after.get("cancelled_at") else "changed",
        date=date.fromisoformat(after["date"]) if "date" in after else session.date,
        day=after.get("day_name", session.day_name),
        date_before=date.fromisoformat(before["date"]) if moved else None,
        day_before=(before or {}).get("day_name", ""),
        deload=after.get("is_deload") if before is not None else None,
        slots=[(one["before"], one["after"]) for one in record.slots],
    )
