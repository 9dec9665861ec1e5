"""The practice: its settings, its coaches, its invitations."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.db.models import Count, Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from accounts import access
from accounts.forms.people import PracticeForm, RoleForm
from accounts.models import Cover, Invitation, Membership, Practice
from accounts.services import Refused
from accounts.services.membership import membership_end, membership_role_set
from accounts.services.practice import practice_update

PER_PAGE = 20


@require_http_methods(["GET", "POST"])
@login_required
def practice(request: HttpRequest) -> HttpResponse:
    """Show the practice to its coaches; let an owner change its settings."""
    membership = access.access_membership(request.user, owner=request.method == "POST")
    is_owner = membership.role == Membership.Role.OWNER
    # A copy: the frame and the lists keep the saved practice while a form with errors is shown.
    form = PracticeForm(request.POST or None, instance=Practice.objects.get(pk=membership.practice_id))
    if request.method == "POST" and form.is_valid():
        practice_update(practice=membership.practice, **form.cleaned_data)
        messages.success(request, _("Saved."))
        return redirect("practice")
    coaches = (
        Membership.objects.visible_to(request.user)
        .running()
        .select_related("user")
        .annotate(clients=Count("engagements", filter=Q(engagements__ended_on=None)))
        .order_by("user__name", "pk")
    )
    invitations = Invitation.objects.visible_to(request.user).select_related("invited_by", "accepted_by")
    covers = Cover.objects.visible_to(request.user).filter(ends_on__gte=membership.practice.today())
    context = {
        "practice": membership.practice,
        "covers": covers.select_related("away__user", "by__user")[:PER_PAGE],
        "is_owner": is_owner,
        "form": form,
        "coaches": Paginator(coaches, PER_PAGE).get_page(request.GET.get("coaches")),
        "invitations": Paginator(invitations, PER_PAGE).get_page(request.GET.get("page")),
        "room": "practice",
    }
    return render(request, "accounts/practice.html", context, status=422 if form and form.errors else 200)


@require_http_methods(["GET", "POST"])
@login_required
def membership_edit(request: HttpRequest, membership_id: int) -> HttpResponse:
    """Let an owner change a coach's role or end their work here."""
    coaches = Membership.objects.select_related("user", "practice").running()
    membership = access.access_write(coaches, request.user, pk=membership_id)
    form = RoleForm(request.POST or None, initial={"role": membership.role})
    ends = "end" in request.POST
    if request.method == "POST" and (ends or form.is_valid()):
        try:
            if ends:
                left = membership_end(membership=membership)
                message = _("%(name)s no longer works here. Clients without a coach now: %(number)s.")
                messages.success(request, message % {"name": membership.user, "number": left})
            else:
                membership_role_set(membership=membership, role=form.cleaned_data["role"])
                messages.success(request, _("Saved."))
            return redirect("practice")
        except Refused as refusal:
            form.add_error(None, str(refusal))
    context = {"membership": membership, "form": form, "room": "practice"}
    return render(request, "accounts/membership_edit.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "POST"])
@login_required
def membership_leave(request: HttpRequest) -> HttpResponse:
    """Let a coach leave the practice."""
    membership = access.access_membership(request.user)
    refusal = None
    if request.method == "POST":
        try:
            membership_end(membership=membership)
        except Refused as error:
            refusal = str(error)
        else:
            messages.success(request, _("You have left %(practice)s.") % {"practice": membership.practice})
            return redirect("home")
    return render(
        request,
        "accounts/membership_leave.html",
        {"refusal": refusal, "room": "practice"},
        status=422 if refusal else 200,
    )
