"""Invitations: made, sent again, withdrawn. Accepting is in services/acceptance.py.

The link holds 256 random bits; the database holds only their SHA-256, which needs no salt and no slow hash because
nobody can guess 256 bits. Sending again makes a new link, and the old one dies with its hash.
"""

import datetime as dt
import hashlib
import secrets
from dataclasses import dataclass

from django.db import transaction
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from accounts.mail import send_on_commit
from accounts.models import Engagement, Invitation, Membership
from accounts.services import Refused

VALID_FOR = dt.timedelta(days=7)


@dataclass(frozen=True)
class Issued:
    """An invitation and its link. The link cannot be had again: show it now."""

    invitation: Invitation
    link: str


class StillOpen(Refused):
    """The same person holds an invitation that still works: `invitation`."""

    def __init__(self, invitation: Invitation) -> None:
        super().__init__(_("An invitation to %(email)s is open. Send that one again.") % {"email": invitation.email})
        self.invitation = invitation


def token_hash(token: str) -> str:
    """Return what the database keeps of a link's secret."""
    return hashlib.sha256(token.encode()).hexdigest()


def _issue(invitation: Invitation, base_url: str) -> Issued:
    """Give the invitation a fresh secret and seven days, save it and send it on commit."""
    token = secrets.token_urlsafe(32)
    invitation.token_hash = token_hash(token)
    invitation.expires_at = timezone.now() + VALID_FOR
    invitation.save()
    link = base_url.rstrip("/") + reverse("invitation-accept", kwargs={"token": token})
    subject = _("%(coach)s invites you to %(practice)s") % {
        "coach": invitation.invited_by,
        "practice": invitation.practice,
    }
    context = {"invitation": invitation, "link": link, "days": VALID_FOR.days}
    send_on_commit(to=invitation.email, subject=subject, template="invitation", context=context)
    return Issued(invitation, link)


@transaction.atomic
def invitation_create(*, inviter: Membership, kind: str, email: str, name: str, base_url: str) -> Issued:
    """Invite a client (who will be trained by the inviter) or, as an owner, another coach.

    Raises Refused when a coach invites a coach or when the person is already here, StillOpen when an invitation is
    open. It says nothing about people of other practices: an inviter must not learn who has an account.
    """
    email = email.strip().lower()
    practice = inviter.practice
    if kind == Invitation.Kind.COACH and inviter.role != Membership.Role.OWNER:
        raise Refused(_("Only an owner of the practice can invite coaches."))
    if kind == Invitation.Kind.COACH:
        here = Membership.objects.running().filter(practice=practice, user__email__iexact=email)
    else:
        here = Engagement.objects.running().filter(coach=inviter, client__user__email__iexact=email)
    if here.exists():
        raise Refused(_("%(email)s is already with you.") % {"email": email})
    open_ones = Invitation.objects.open().filter(practice=practice, kind=kind, email=email, invited_by=inviter.user)
    if earlier := open_ones.first():
        raise StillOpen(earlier)
    invitation = Invitation(practice=practice, kind=kind, email=email, name=name, invited_by=inviter.user)
    return _issue(invitation, base_url)


@transaction.atomic
def invitation_resend(*, invitation: Invitation, base_url: str) -> Issued:
    """Replace the link by a new one, valid for seven days. Raises Refused if it was accepted or withdrawn."""
    invitation = Invitation.objects.select_for_update().get(pk=invitation.pk)
    if not invitation.can_be_sent_again:
        raise Refused(_("This invitation is %(state)s.") % {"state": invitation.state.label})
    return _issue(invitation, base_url)


@transaction.atomic
def invitation_withdraw(*, invitation: Invitation) -> None:
    """Make the link useless. Raises Refused if it was accepted or withdrawn before."""
    waiting = Invitation.objects.filter(pk=invitation.pk, accepted_at=None, withdrawn_at=None)
    if not waiting.update(withdrawn_at=timezone.now()):
        invitation.refresh_from_db()
        raise Refused(_("This invitation is %(state)s.") % {"state": invitation.state.label})
