"""Changes to who coaches in a practice."""

import datetime as dt

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from accounts import access
from accounts.models import Cover, Engagement, Invitation, Membership, Practice
from accounts.services import Refused
from accounts.services.cover import cover_withdraw


def _refuse_if_last_owner(membership: Membership) -> None:
    """Keep a practice from losing its only owner. The practice's row is locked, so that two owners cannot both go."""
    Practice.objects.select_for_update().get(pk=membership.practice_id)
    others = Membership.objects.running().filter(practice=membership.practice_id, role=Membership.Role.OWNER)
    if membership.role == Membership.Role.OWNER and not others.exclude(pk=membership.pk).exists():
        raise Refused(_("A practice needs an owner. Make another coach an owner first."))


@transaction.atomic
def membership_role_set(*, membership: Membership, role: str) -> None:
    """Make a coach an owner or an owner a coach. Raises Refused for the only owner and for one who has left."""
    if membership.ended_on is not None:
        raise Refused(_("This person no longer works here."))
    if role != Membership.Role.OWNER:
        _refuse_if_last_owner(membership)
    membership.role = role
    membership.save(update_fields=["role"])
    access.forget(membership.user)


@transaction.atomic
def membership_end(*, membership: Membership) -> int:
    """End a coach's work in the practice at once, with their engagements and the invitations they sent.

    Returns how many clients are left without this coach; the owner still sees them. Raises Refused for the only owner.
    """
    if membership.ended_on is not None:
        raise Refused(_("This person no longer works here."))
    _refuse_if_last_owner(membership)
    today = membership.practice.today()
    # Days are counted in full, so it is yesterday that makes the door shut now.
    membership.ended_on = today - dt.timedelta(days=1)
    membership.save(update_fields=["ended_on"])
    Invitation.objects.open().filter(practice=membership.practice_id, invited_by=membership.user_id).update(
        withdrawn_at=timezone.now()
    )
    access.forget(membership.user)
    for cover in Cover.objects.filter(by=membership, ends_on__gte=today).select_related("practice"):
        cover_withdraw(cover=cover)
    return Engagement.objects.running().filter(coach=membership).update(ended_on=today)
