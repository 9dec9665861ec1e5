"""A coach writes a client's set right: a slip of the thumb that would otherwise stand in every number."""

import uuid

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from accounts import access
from logbook.forms.set_form import CorrectForm, RightForm, rir_initial
from logbook.models import SetLog
from logbook.reads.entries import exercise_dict
from logbook.reads.last_time import loads_beside
from logbook.reads.rows import set_row
from programs.templatetags.loads import plain


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def set_correct(request: HttpRequest, set_id: uuid.UUID) -> HttpResponse:
    """Show one set of a client and change its values; those that the client typed are kept beside it."""
    rows = SetLog.objects.select_related("client__user", "session", "exercise__equipment").prefetch_related("history")
    row = access.access_read(rows, request.user, pk=set_id)
    client = access.access_client_as_coach(request.user, row.client_id)
    if row.deleted_at:  # to change it would bring it back
        messages.error(request, _("The client has deleted this set meanwhile; nothing was changed."))
        return redirect("performed-session", row.session_id)
    values = {name: getattr(row, name) for name in ("load", "unit", "reps", "note", "warm_up", "side")}
    initial = {"op": uuid.uuid4(), **values, "load": plain(row.load), **rir_initial(row.rir)}
    form = CorrectForm(request.POST if request.method == "POST" else None, initial=initial, label_suffix="")
    sure = request.method == "POST" and form.is_valid() and form.sure_of(loads_beside(row), row.exercise.load_kind, row)
    if sure and form.correct(row, coach=request.user):
        messages.success(request, _("Corrected. What the client had typed is kept beside it, and they see it."))
        return redirect("performed-session", row.session_id)
    context = {"room": "clients", "client": client, "set": row, "form": form}
    context |= {"row": set_row(row), "exercise": exercise_dict(row.exercise)}
    context["right"] = RightForm(initial={"seen": row.load_kg})
    return render(request, "logbook/set_correct.html", context, status=422 if form.errors else 200)


@login_required
@require_POST
def set_right(request: HttpRequest, set_id: uuid.UUID) -> HttpResponse:
    """Keep a coach's word that the load of a client's set is right: it is no longer marked as a slip.

    The values stay the client's own, so an edit that waits on their phone still goes before it.
    """
    row = access.access_read(SetLog.objects.select_related("client"), request.user, pk=set_id)
    access.access_client_as_coach(request.user, row.client_id)
    if RightForm(request.POST).say_of(row):
        messages.success(request, _("Noted: this load is right. It is no longer marked."))
        return redirect("performed-session", row.session_id)
    messages.error(request, _("The client has changed this set in the meantime. Look again before you say so."))
    return redirect("set-correct", row.pk)
