"""The invited person's side of an invitation. Opening the link changes nothing; only a POST accepts."""

from typing import Any

from allauth.account.utils import perform_login
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from accounts.forms.invitation import AcceptForm
from accounts.models import Invitation, User
from accounts.services import Refused
from accounts.services.acceptance import invitation_accept, invitation_accept_as_new
from accounts.services.invitation import token_hash


@require_http_methods(["GET", "POST"])
@sensitive_post_parameters("password")
@never_cache
def accept(request: HttpRequest, token: str) -> HttpResponse:
    """Show the invitation behind a link and let its holder accept it.

    SECURITY: the secret in the address is the permission here, so nothing is asked of access.py. Responses carry
    Referrer-Policy same-origin (settings), which keeps the address from other sites.
    """
    rows = Invitation.objects.select_related("invited_by", "accepted_by", "practice")
    invitation = rows.filter(token_hash=token_hash(token)).first()
    if invitation is None:
        return render(request, "accounts/invitation_gone.html", status=404)
    if invitation.state == Invitation.State.ACCEPTED and invitation.accepted_by == request.user:
        return redirect("home")  # who keeps the letter as their way in comes in
    if invitation.state != Invitation.State.OPEN:
        return render(request, "accounts/invitation_gone.html", {"invitation": invitation}, status=410)
    context = {"invitation": invitation, "is_coach": invitation.kind == Invitation.Kind.COACH}
    if request.user.is_authenticated:
        return _accept_as_known(request, invitation, context)
    if User.objects.filter(email__iexact=invitation.email).exists():
        return render(request, "accounts/invitation_sign_in.html", context)
    return _accept_as_new(request, invitation, context)


def _accept_as_known(request: HttpRequest, invitation: Invitation, context: dict[str, Any]) -> HttpResponse:
    """Ask someone who is signed in to confirm."""
    if request.method == "POST":
        try:
            invitation_accept(invitation=invitation, user=request.user)
        except Refused as refusal:
            context["refusal"] = str(refusal)
        else:
            messages.success(request, _("Welcome to %(practice)s.") % {"practice": invitation.practice})
            return redirect("home")
    return render(request, "accounts/invitation_confirm.html", context)


def _accept_as_new(request: HttpRequest, invitation: Invitation, context: dict[str, Any]) -> HttpResponse:
    """Ask a new person for what an account needs; then they are in."""
    initial = {"name": invitation.name}
    form = AcceptForm(request.POST or None, email=invitation.email, initial=initial)
    if request.method == "POST" and form.is_valid():
        try:
            user = invitation_accept_as_new(invitation=invitation, **form.cleaned_data)
        except Refused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, _("Welcome to %(practice)s.") % {"practice": invitation.practice})
            return perform_login(request, user, email_verification="mandatory", email=user.email)
    return render(request, "accounts/invitation_new.html", {**context, "form": form})
