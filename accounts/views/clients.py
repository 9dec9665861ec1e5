"""A coach's clients: who they are, and who trains them."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.db.models import Prefetch, Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from accounts import access
from accounts.forms.invitation import InviteForm
from accounts.forms.people import ClientForm, CoachForm
from accounts.models import Engagement, Invitation, Membership
from accounts.services import Refused
from accounts.services.engagement import engagement_end, engagement_hand_over

PER_PAGE = 25
RUNNING = Engagement.objects.running().select_related("coach__user").order_by("started_on", "pk")


@require_safe
@login_required
def client_list(request: HttpRequest) -> HttpResponse:
    """List the clients whose plan the user may write, by name, with a search."""
    membership = access.access_membership(request.user)
    words = request.GET.get("q", "").strip()
    clients = access.clients_coached_by(request.user).select_related("user")
    for word in words.split():
        clients = clients.filter(Q(user__name__icontains=word) | Q(user__email__icontains=word))
    clients = clients.prefetch_related(Prefetch("engagements", RUNNING, to_attr="running_engagements"))
    open_invitations = Invitation.objects.visible_to(request.user).open().filter(kind=Invitation.Kind.CLIENT)
    context = {
        "clients": Paginator(clients.order_by("user__name", "pk"), PER_PAGE).get_page(request.GET.get("page")),
        "words": words,
        "is_owner": membership.role == Membership.Role.OWNER,
        "invitations": open_invitations.select_related("invited_by").order_by("expires_at")[:PER_PAGE],
        "invite_form": InviteForm(),
        "room": "clients",
    }
    return render(request, "accounts/client_list.html", context)


@require_http_methods(["GET", "POST"])
@login_required
def client_edit(request: HttpRequest, client_id: int) -> HttpResponse:
    """Change what the coach decides about a client, and see who trains them."""
    client = access.access_client_as_coach(request.user, client_id)
    form = ClientForm(request.POST or None, instance=client)
    if request.method == "POST" and form.is_valid():
        form.save()
        messages.success(request, _("Saved."))
        return redirect("client-edit", client_id=client.pk)
    membership = access.access_membership(request.user)
    context = {
        "client": client,
        "form": form,
        "engagements": client.engagements.select_related("coach__user").order_by("-started_on", "-pk"),
        "membership_id": membership.pk,
        "is_owner": membership.role == Membership.Role.OWNER,
        "room": "clients",
    }
    return render(request, "accounts/client_edit.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "POST"])
@login_required
def client_coach(request: HttpRequest, client_id: int) -> HttpResponse:
    """Let an owner give a client to another coach of the practice."""
    client = access.access_client_as_owner(request.user, client_id)
    running = list(RUNNING.filter(client=client))
    coaches = Membership.objects.visible_to(request.user).running().select_related("user", "practice")
    # The one who trains them is no choice. Of two either may go on alone, and whoever only stands in may take over.
    present = {one.coach_id for one in running if one.cover_id is None}
    if len(present) == 1:
        coaches = coaches.exclude(pk__in=present)
    form = CoachForm(request.POST or None, coaches=coaches.order_by("user__name", "pk"))
    if request.method == "POST" and form.is_valid():
        coach = form.cleaned_data["coach"]
        try:
            engagement_hand_over(client=client, coach=coach)
        except Refused as refusal:
            form.add_error("coach", str(refusal))
        else:
            names = {"coach": coach.user, "client": client}
            messages.success(request, _("%(coach)s now trains %(client)s.") % names)
            return redirect("client-edit", client_id=client.pk)
    context = {"client": client, "form": form, "running": running, "room": "clients", "choice": form.has_choice}
    return render(request, "accounts/client_coach.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "POST"])
@login_required
def engagement_close(request: HttpRequest, engagement_id: int) -> HttpResponse:
    """Ask once, then end an engagement: for its coach, its client, and the owner of the practice."""
    rows = Engagement.objects.running().select_related("coach__user", "coach__practice", "client__user")
    engagement = access.access_write(rows, request.user, pk=engagement_id)
    is_own = engagement.client.user_id == request.user.pk
    refusal = None
    if request.method == "POST":
        try:
            engagement_end(engagement=engagement)
        except Refused as error:
            refusal = str(error)
        else:
            names = {"coach": engagement.coach.user, "client": engagement.client}
            messages.success(request, _("Today is the last day on which %(coach)s trains %(client)s.") % names)
            return redirect("profile" if is_own else "client-list")
    context = {"engagement": engagement, "is_own": is_own, "refusal": refusal}
    context["room"] = "profile" if is_own else "clients"
    return render(request, "accounts/engagement_close.html", context, status=422 if refusal else 200)
