"""Where everyone starts."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from accounts import access
from accounts.forms.people import PracticeStartForm
from accounts.services import Refused
from accounts.services.practice import practice_create


@require_GET
@login_required
def home(request: HttpRequest) -> HttpResponse:
    """Send a coach to the week, a client to today's training, and tell anyone else how they get in."""
    if access.membership_of(request.user):
        return redirect("board")
    if access.client_of(request.user):
        return redirect("today")
    return render(request, "accounts/nobody.html")


@require_http_methods(["GET", "POST"])
@login_required
def practice_start(request: HttpRequest) -> HttpResponse:
    """Open a practice, for a person who has an account but works nowhere."""
    if access.membership_of(request.user):
        return redirect("practice")
    form = PracticeStartForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            practice_create(owner=request.user, name=form.cleaned_data["name"])
        except Refused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, _("The practice is open. Invite your first client from Clients."))
            return redirect("client-list")
    return render(request, "accounts/practice_start.html", {"form": form}, status=422 if form.errors else 200)
