"""Changes to a practice."""

from django.db import transaction
from django.utils.translation import gettext as _

from accounts import access
from accounts.models import Membership, Practice, User
from accounts.services import Refused


@transaction.atomic
def practice_create(*, owner: User, name: str) -> Membership:
    """Open a practice in the owner's time zone, with them as its owner from today.

    Raises Refused when the person works in a practice already.
    """
    if Membership.objects.running().filter(user=owner).exists():
        raise Refused(_("You already work in a practice. Leave it first."))
    practice = Practice.objects.create(name=name, time_zone=owner.time_zone)
    access.forget(owner)
    return Membership.objects.create(
        practice=practice, user=owner, role=Membership.Role.OWNER, started_on=practice.today()
    )


@transaction.atomic
def practice_update(*, practice: Practice, name: str, time_zone: str, require_coach_mfa: bool) -> None:
    """Change the practice's settings. Who may is for the caller to check (access_membership(owner=True))."""
    practice.name, practice.time_zone, practice.require_coach_mfa = name, time_zone, require_coach_mfa
    practice.save(update_fields=["name", "time_zone", "require_coach_mfa"])
