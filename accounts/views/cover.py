"""Standing in, and handing several clients over."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from accounts import access
from accounts.forms.cover import CoverForm, HandOverForm
from accounts.models import Client, Cover, Engagement, Membership
from accounts.services import Refused
from accounts.services.cover import cover_arrange, cover_withdraw
from accounts.services.engagement import engagements_hand_over

PER_PAGE = 50


@require_http_methods(["GET", "POST"])
@login_required
def cover_new(request: HttpRequest) -> HttpResponse:
    """Let a coach name who stands in for them, and an owner for anybody."""
    membership = access.access_membership(request.user)
    own = None if membership.role == Membership.Role.OWNER else membership
    coaches = Membership.objects.visible_to(request.user).running().select_related("user").order_by("user__name", "pk")
    form = CoverForm(request.POST or None, coaches=coaches, own=own, label_suffix="")
    if request.method == "POST" and form.is_valid():
        chosen = {"away": own, **form.cleaned_data}
        try:
            cover = cover_arrange(arranged_by=request.user, **chosen)
        except Refused as refusal:
            form.add_error(None, str(refusal))
        else:
            names = {"by": cover.by.user, "away": cover.away.user}
            messages.success(request, _("%(by)s stands in for %(away)s.") % names)
            return redirect("practice")
    context = {"form": form, "own": own, "room": "practice", "choice": form.has_choice}
    return render(request, "accounts/cover_new.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "POST"])
@login_required
def cover_end(request: HttpRequest, cover_id: int) -> HttpResponse:
    """Ask once, then end a cover or call it off."""
    rows = Cover.objects.select_related("practice", "away__user", "by__user")
    cover = access.access_write(rows, request.user, pk=cover_id)
    refusal = None
    if request.method == "POST":
        try:
            cover_withdraw(cover=cover)
        except Refused as error:
            refusal = str(error)
        else:
            messages.success(request, _("%(by)s no longer stands in.") % {"by": cover.by.user})
            return redirect("practice")
    context = {"cover": cover, "refusal": refusal, "today": cover.practice.today(), "room": "practice"}
    return render(request, "accounts/cover_end.html", context)


@require_http_methods(["GET", "POST"])
@login_required
def hand_over(request: HttpRequest, membership_id: int) -> HttpResponse:
    """Let an owner give some or all clients of one coach to another."""
    giver = access.access_write(Membership.objects.select_related("user"), request.user, pk=membership_id)
    trained = Engagement.objects.running().filter(coach=giver).values("client")
    if giver.ended_on:  # of a coach who has left: those whom nobody trains since
        now = Engagement.objects.running().values("client")
        trained = Engagement.objects.filter(coach=giver, cover=None).exclude(client__in=now).values("client")
    clients = Client.objects.visible_to(request.user).filter(pk__in=trained).select_related("user")
    page = Paginator(clients.order_by("user__name", "pk"), PER_PAGE).get_page(request.GET.get("page"))
    coaches = Membership.objects.visible_to(request.user).running().exclude(pk=giver.pk).select_related("user")
    form = HandOverForm(
        request.POST or None,
        clients=clients,
        coaches=coaches.order_by("user__name", "pk"),
        label_suffix="",
    )
    # Only this page's names are drawn; what is chosen is checked against all.
    form.fields["clients"].choices = [(client.pk, str(client)) for client in page]
    if request.method == "POST" and form.is_valid():
        coach = form.cleaned_data["coach"]
        try:
            given = engagements_hand_over(clients=list(form.cleaned_data["clients"]), coach=coach)
        except Refused as refusal:
            form.add_error(None, str(refusal))
        else:
            for client in form.cleaned_data["clients"]:
                access.note_opened(request.user, client)
            text = ngettext(
                "%(coach)s now trains %(n)s more client.", "%(coach)s now trains %(n)s more clients.", given
            )
            messages.success(request, text % {"coach": coach.user, "n": given})
            return redirect("hand-over", membership_id=giver.pk)
    context = {"giver": giver, "form": form, "page": page, "room": "practice", "choice": form.has_choice}
    return render(request, "accounts/hand_over.html", context, status=422 if form.errors else 200)
