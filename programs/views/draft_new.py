"""Ask for a drafted week."""

from typing import Any

from django.contrib.auth.decorators import login_required
from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from accounts.access import access_client_as_coach, access_membership, access_read
from accounts.models import Client
from periodization.duration import WARM_UP_MINUTES
from programs.forms.draft_forms import DraftForms, draft_forms
from programs.forms.draft_initial import ask_initial, client_initial, usual_initial
from programs.forms.draft_picks import LISTS, read_pick
from programs.models import DraftRun, MuscleGroup
from programs.services.draft_ask import ask_from_json
from programs.services.draft_run import AT_ONCE, TooMany, draft_start


@login_required
@require_http_methods(["GET", "POST"])
def draft_new(request: HttpRequest) -> HttpResponse:
    """Show the form (for `client`, or with the values of the draft `again`), and start a draft."""
    membership = access_membership(request.user)
    asked = request.POST if request.method == "POST" else request.GET
    client = access_client_as_coach(request.user, _id(asked["client"])) if asked.get("client") else None
    groups = list(MuscleGroup.objects.all())
    if request.method == "GET":
        initial, client = _initial(request, groups, client)
        return _page(request, draft_forms(request.user, groups, initial), client)
    looking = "look" in request.POST
    forms = draft_forms(request.user, groups, {}, request.POST, bound=not looking)
    if looking or not forms.is_valid():
        return _page(request, forms, client, status=200 if looking else 422)
    try:
        run = draft_start(
            practice=membership.practice,
            author=request.user,
            client=client,
            name=forms.week.cleaned_data["name"],
            ask=forms.ask(),
        )
    except TooMany:
        forms.week.add_error(
            None, _("%(count)s drafts are at work already. Wait for one, or stop it.") % {"count": AT_ONCE}
        )
        return _page(request, forms, client, status=422)
    return redirect("draft-detail", run.pk)


@login_required
@require_GET
def draft_exercises(request: HttpRequest) -> HttpResponse:
    """List the ticked exercises of one list and those that match the words: the part under a search field."""
    access_membership(request.user)
    name = request.GET.get("list", "")
    if name not in LISTS:
        raise BadRequest("unknown list")
    pick = read_pick(request.user, name, request.GET.getlist(name), request.GET.get(f"{name}-q", ""))
    return render(request, "programs/draft_pick.html#rows", {"pick": pick})


def _initial(
    request: HttpRequest, groups: list[MuscleGroup], client: Client | None
) -> tuple[dict[str, Any], Client | None]:
    slugs = [group.slug for group in groups]
    if request.GET.get("again"):
        run = access_read(DraftRun.objects.select_related("client__user"), request.user, pk=_id(request.GET["again"]))
        return ask_initial(ask_from_json(run.ask), run.name, slugs), run.client
    if client:
        return client_initial(client, slugs), client
    return usual_initial(slugs), None


def _id(text: str) -> int:
    return int(text) if text.isascii() and text.isdigit() and len(text) < 16 else 0


def _page(request: HttpRequest, forms: DraftForms, client: Client | None, status: int = 200) -> HttpResponse:
    context = {"forms": forms, "client": client, "warm_up_minutes": round(WARM_UP_MINUTES), "room": "programs"}
    return render(request, "programs/draft_form.html", context, status=status)
