"""Fit a program to many clients, and assign it."""

from dataclasses import replace
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_safe

from accounts import access
from accounts.audit.preview import changed_nothing
from accounts.models import Client
from coaching.fitting.decided import decided_rows
from coaching.fitting.forms import ChoiceForm
from coaching.fitting.row import FitRow
from coaching.fitting.rows import FitPage, fit_copies, fit_page, with_form
from coaching.fitting.sift import SIEVES, headed, sieves, sifted_groups, sifted_rows, summary
from coaching.fitting.together_form import TogetherForm
from programs.models import Fitting
from programs.services.assignment_make import AssignError
from programs.services.fitting import assigned_already, fitting_assign, fitting_choose, fitting_drop


@login_required
@require_safe
def fitting_page(request: HttpRequest, fitting_id: int) -> HttpResponse:
    """Show a row a client: what differs, why, and what it does to the week; once assigned, what was decided."""
    fitting = fitting_of(request, fitting_id)
    if fitting.assigned_at:
        return _decided(request, fitting)
    return render_page(request, fitting, fit_page(fitting, clients_of(request, fitting)))


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def fitting_client(request: HttpRequest, fitting_id: int, client_id: int) -> HttpResponse:
    """Show one client's proposals as a form; keep what the coach says, go back to what is proposed, or take the client
    off the list. With htmx the row alone."""
    fitting = fitting_of(request, fitting_id)
    if fitting.assigned_at:
        # Also for who is no client of the author's any more: what was decided says it.
        if request.method == "POST":
            messages.error(request, str(assigned_already()))
        return changed_nothing(redirect("fitting", fitting.pk))
    client = access.access_client_as_coach(request.user, client_id)
    if not fitting.clients.filter(pk=client.pk).exists():
        raise Http404
    if request.method != "POST":
        if request.htmx and not request.htmx.boosted:
            page = fit_page(fitting, [client])
            row = replace(page.rows[0], form=form_of(page.rows[0], page))
            shown = {"shown": _shown(request)}
            return render(request, "coaching/parts/fitting_row.html", {"fitting": fitting, "row": row, **shown})
        page = fit_page(fitting, clients_of(request, fitting))
        row = next(one for one in page.rows if one.client == client)
        return render_page(request, fitting, with_form(page, client, form_of(row, page)))
    back = back_to(fitting, request.POST.get("show", ""), f"client-{client.pk}")
    try:
        if "off" in request.POST:
            fitting_drop(fitting=fitting, client=client)
            return redirect(back_to(fitting, request.POST.get("show", ""), "clients"))
        if "anew" in request.POST:
            fitting_choose(fitting=fitting, client=client, choices={})
            return redirect(back)
        page = fit_page(fitting, clients_of(request, fitting))
        row = next(one for one in page.rows if one.client == client)
        form = form_of(row, page, request.POST)
        if not form.is_valid():
            return render_page(request, fitting, with_form(page, client, form), status=422)
        kept = form.choices(fitting.choices.get(str(client.pk), {}))
        fitting_choose(fitting=fitting, client=client, choices=kept)
    except AssignError as refused:
        messages.error(request, str(refused))
        return changed_nothing(redirect(back))
    return redirect(back)


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def fitting_make(request: HttpRequest, fitting_id: int) -> HttpResponse:
    """Assign the program to everyone on the list, each with their accepted differences. Who reads this address, as
    after signing in again, comes to the fitting."""
    fitting = fitting_of(request, fitting_id)
    if request.method != "POST":
        return redirect("fitting", fitting.pk)
    if fitting.assigned_at:
        return _decided(request, fitting, error=str(assigned_already()), status=422)
    clients = clients_of(request, fitting)
    copies = fit_copies(fitting, clients)
    try:
        made = fitting_assign(
            fitting=fitting,
            clients=clients,
            adaptations={pk: fitted.adapted() for pk, fitted in copies.fitted.items()},
            by=request.user,
        )
    except AssignError as refused:
        return render_page(request, fitting, fit_page(fitting, clients), error=str(refused), status=422)
    words = ngettext("%(count)s client has this program now.", "%(count)s clients have this program now.", len(made))
    messages.success(request, words % {"count": len(made)})
    return redirect("assignment-detail", made[0].pk) if len(made) == 1 else redirect("fitting", fitting.pk)


def fitting_of(request: HttpRequest, fitting_id: int) -> Fitting:
    rows = Fitting.objects.select_related("program__practice")
    return access.access_read(rows, request.user, pk=fitting_id)


def clients_of(request: HttpRequest, fitting: Fitting) -> list[Client]:
    """Return the clients on the list. SECURITY: only those whose plan the user may write today."""
    rows = Client.objects.writable_by(request.user).select_related("user").filter(pk__in=fitting.clients.values("pk"))
    return list(rows.order_by("user__name", "pk"))


def form_of(row: FitRow, page: FitPage, data: Any = None) -> ChoiceForm:
    return ChoiceForm(
        data,
        proposals=row.fitted.proposals,
        exercises=page.library.pool.exercises,
        unit=row.facts.unit,
        prefix=str(row.client.pk),
    )


def back_to(fitting: Fitting, shown: str, place: str) -> str:
    """Return the page's address, sifted as it was, at a place on it."""
    query = {"show": shown} if shown in SIEVES else None
    return f"{reverse('fitting', args=[fitting.pk], query=query)}#{place}"


def _shown(request: HttpRequest) -> str:
    """Return what the page is sifted by; empty for everything."""
    shown: str = request.POST.get("show", request.GET.get("show", ""))
    return shown if shown in SIEVES else ""


def _decided(request: HttpRequest, fitting: Fitting, *, error: str = "", status: int = 200) -> HttpResponse:
    rows = decided_rows(fitting, request.user)
    context = {"room": "programs", "fitting": fitting, "program": fitting.program, "rows": rows, "error": error}
    return render(request, "coaching/fitting_decided.html", context, status=status)


def render_page(
    request: HttpRequest,
    fitting: Fitting,
    page: FitPage,
    *,
    error: str = "",
    status: int = 200,
    bound: TogetherForm | None = None,
) -> HttpResponse:
    """Show the page; `bound` is what was said to a group and refused."""
    shown = _shown(request)
    rows, groups = sifted_rows(page.rows, shown), sifted_groups(page.groups, shown)
    exercises = page.library.pool.exercises
    forms = {group.key: TogetherForm(group=group, exercises=exercises) for group in groups}
    if bound:
        forms[bound.group.key] = bound
    context = {
        "room": "programs",
        "fitting": fitting,
        "program": fitting.program,
        "rows": rows,
        "places": [(place, [row for row in rows if row.place == place]) for place in ("first", "read", "rest")],
        "together": headed(list(forms.values())),
        "sieves": sieves(page.rows, shown),
        "shown": shown,
        "sum": summary(page.rows, page.groups, {pk: one.name for pk, one in exercises.items()}),
        "week": page.week,
        "error": error or (_("This program is empty.") if page.week is None else ""),
    }
    return render(request, "coaching/fitting.html", context, status=status)
