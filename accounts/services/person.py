"""Changes to a person's own account."""

from django.db.models import F

from accounts.models import User


def sessions_end(*, user: User) -> None:
    """End every session of the person, on all devices: none of them fits the new epoch."""
    User.objects.filter(pk=user.pk).update(session_epoch=F("session_epoch") + 1)
    user.refresh_from_db(fields=["session_epoch"])
