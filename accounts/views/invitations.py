"""Invitations as the inviting coach sees them."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from accounts import access
from accounts.audit.preview import changed_nothing
from accounts.forms.invitation import InviteForm
from accounts.models import Invitation
from accounts.services import Refused
from accounts.services.invitation import Issued, StillOpen, invitation_create, invitation_resend, invitation_withdraw

LINK_KEY = "invitation_link"


def _show(request: HttpRequest, issued: Issued) -> HttpResponse:
    """Go to the invitation's page, which shows the link this once."""
    request.session[LINK_KEY] = [issued.invitation.pk, issued.link]
    messages.success(request, _("Sent to %(email)s.") % {"email": issued.invitation.email})
    return redirect("invitation-detail", invitation_id=issued.invitation.pk)


@require_http_methods(["GET", "POST"])
@login_required
def invite(request: HttpRequest, kind: str) -> HttpResponse:
    """Ask whom to invite, and send it."""
    inviter = access.access_membership(request.user, owner=kind == Invitation.Kind.COACH)
    form = InviteForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            issued = invitation_create(
                inviter=inviter, kind=kind, base_url=request.build_absolute_uri("/"), **form.cleaned_data
            )
        except StillOpen as refusal:
            messages.warning(request, str(refusal))
            return changed_nothing(redirect("invitation-detail", invitation_id=refusal.invitation.pk))
        except Refused as refusal:
            form.add_error("email", str(refusal))
        else:
            return _show(request, issued)
    room = "practice" if kind == Invitation.Kind.COACH else "clients"
    context = {"form": form, "kind": kind, "room": room}
    return render(request, "accounts/invite.html", context, status=422 if form.errors else 200)


@require_safe
@never_cache
@login_required
def invitation_detail(request: HttpRequest, invitation_id: int) -> HttpResponse:
    """Show where an invitation stands, and its link if it was made just now."""
    rows = Invitation.objects.select_related("invited_by", "accepted_by", "practice")
    invitation = access.access_read(rows, request.user, pk=invitation_id)
    kept = request.session.get(LINK_KEY)
    link = request.session.pop(LINK_KEY)[1] if kept and kept[0] == invitation.pk else None
    room = "practice" if invitation.kind == Invitation.Kind.COACH else "clients"
    return render(request, "accounts/invitation_detail.html", {"invitation": invitation, "link": link, "room": room})


@require_POST
@login_required
def resend(request: HttpRequest, invitation_id: int) -> HttpResponse:
    """Send a new link; the old one stops working."""
    invitation = access.access_write(Invitation.objects.all(), request.user, pk=invitation_id)
    try:
        issued = invitation_resend(invitation=invitation, base_url=request.build_absolute_uri("/"))
    except Refused as refusal:
        messages.error(request, str(refusal))
        return redirect("invitation-detail", invitation_id=invitation_id)
    return _show(request, issued)


@require_POST
@login_required
def withdraw(request: HttpRequest, invitation_id: int) -> HttpResponse:
    """Make the link useless."""
    invitation = access.access_write(Invitation.objects.all(), request.user, pk=invitation_id)
    try:
        invitation_withdraw(invitation=invitation)
    except Refused as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, _("Withdrawn. The link no longer works."))
    return redirect("invitation-detail", invitation_id=invitation_id)
