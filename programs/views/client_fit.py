"""What a client has at hand and must keep from: for the coaches, and on the phone for the client."""

from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.exceptions import PermissionDenied
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from accounts import access
from accounts.models import Client
from programs.forms.client_fit import EquipmentForm, LimitForm
from programs.models import ClientLimit
from programs.services.client_fit import LimitError, client_gear_set, client_limit_add, client_limit_end

OVER_A_PAGE = 10


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def client_fit(request: HttpRequest, client_id: int) -> HttpResponse:
    """The coach's page of one client."""
    client = access.access_client_as_coach(request.user, client_id)
    return _page(request, client, "programs/client_fit.html", redirect_to="client-fit", args=[client.pk], own=False)


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def own_fit(request: HttpRequest) -> HttpResponse:
    """The client's own page: they tell it themselves, and take off what they told."""
    client = access.access_own_client(request.user)
    return _page(request, client, "programs/own_fit.html", redirect_to="own-fit", args=[], own=True)


@login_required
@require_POST
def client_limit_off(request: HttpRequest, limit_id: int) -> HttpResponse:
    """Take a limit off: the coach any, the client what they told themselves."""
    row = access.access_read(ClientLimit.objects.select_related("client__user"), request.user, pk=limit_id)
    as_coach = ClientLimit.objects.writable_by(request.user).filter(pk=row.pk).exists()
    if not as_coach and row.told_by_id != request.user.pk:
        raise PermissionDenied
    client_limit_end(row=row, today=row.client.user.today())
    messages.success(request, _("Taken off. A plan that runs stays as it is until it is fitted again."))
    return redirect("client-fit", row.client_id) if as_coach else redirect("own-fit")


def _page(
    request: HttpRequest, client: Client, template: str, *, redirect_to: str, args: list[Any], own: bool
) -> HttpResponse:
    today = client.user.today()
    gear_sent = request.method == "POST" and "gear" in request.POST
    limit_sent = request.method == "POST" and not gear_sent
    gear = EquipmentForm(
        request.POST if gear_sent else None,
        practice=client.practice,
        initial={
            "equipment": list(client.equipment.values_list("equipment", flat=True)),
            "minutes": client.minutes_per_session,
        },
    )
    limit = LimitForm(request.POST if limit_sent else None, client=client, today=today)
    if gear_sent and gear.is_valid():
        client_gear_set(
            client=client,
            equipment=gear.cleaned_data["equipment"],
            minutes=gear.cleaned_data["minutes"],
            told_by=request.user,
        )
        messages.success(request, _("Saved. A plan that runs stays as it is until it is fitted again."))
        return redirect(redirect_to, *args)
    if limit_sent and limit.is_valid():
        try:
            client_limit_add(client=client, told_by=request.user, since=today, **limit.cleaned_data)
        except LimitError as refused:
            limit.add_error(None, str(refused))
        else:
            messages.success(request, _("Kept from now on. A plan that runs stays as it is until it is fitted again."))
            return redirect(redirect_to, *args)
    rows = ClientLimit.objects.filter(client=client).select_related("limit", "exercise", "told_by")
    holding = rows.holding(today)
    over = rows.exclude(pk__in=holding.values("pk")).order_by("-until", "-pk")
    wrong = gear.errors or limit.errors
    context = {
        "room": "profile" if own else "clients",
        "client": client,
        "gear": gear,
        "limit": limit,
        "holding": list(holding),
        "over": Paginator(over, OVER_A_PAGE).get_page(request.GET.get("page")),
        "own": own,
    }
    return render(request, template, context, status=422 if wrong else 200)
