"""A person's own page."""

from django.contrib import messages
from django.contrib.auth import logout
from django.contrib.auth.decorators import login_required
from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from accounts import access
from accounts.forms.people import ProfileForm
from accounts.models import Engagement, User
from accounts.services.person import sessions_end


@require_http_methods(["GET", "POST"])
@login_required
def profile(request: HttpRequest) -> HttpResponse:
    """Show and change name, time zone and unit; link to what else belongs to the account."""
    # A copy, so that the page's frame keeps the saved name while a form with errors is shown.
    person = User.objects.get(pk=request.user.pk) if request.method == "POST" else request.user
    form = ProfileForm(request.POST or None, instance=person)
    if request.method == "POST" and form.is_valid():
        form.save()
        messages.success(request, _("Saved."))
        return redirect("profile")
    client = access.client_of(request.user)
    # Without an end, or one who stands in today.
    now = (
        Q(ended_on=None) | (Q(cover__isnull=False) & access.running(on=client.practice.today()))
        if client
        else Q(pk=None)
    )
    engagements = Engagement.objects.filter(now, client=client).select_related("coach__user", "coach__practice")
    context = {
        "form": form,
        "engagements": engagements.order_by("cover", "started_on") if client else [],
        "room": "profile",
    }
    return render(request, "accounts/profile.html", context, status=422 if form.errors else 200)


@require_POST
@login_required
def sign_out_everywhere(request: HttpRequest) -> HttpResponse:
    """End every session of the person, this one too."""
    sessions_end(user=request.user)
    logout(request)
    messages.success(request, _("You are signed out on every device."))
    return redirect("account_login")
