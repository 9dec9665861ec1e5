"""Changes to a practice and to who works in it."""

from django.db import transaction

from accounts.models import Membership, Practice, User


@transaction.atomic
def practice_create(*, owner: User, name: str) -> Membership:
    """Open a practice in the owner's time zone, with them as its owner from today."""
    practice = Practice.objects.create(name=name, time_zone=owner.time_zone)
    return Membership.objects.create(
        practice=practice, user=owner, role=Membership.Role.OWNER, started_on=practice.today()
    )
