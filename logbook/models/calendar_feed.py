"""The secret address under which a client's calendar reads their planned sessions."""

import secrets

from django.core import signing
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Client

SIGNER = signing.Signer(salt="sinewright.calendar", sep="~")


def new_secret() -> str:
    return secrets.token_hex(16)


class CalendarFeed(models.Model):
    """At most one a client. The address is the secret with a signature: the database alone does not open it.

    `starts_at` is the usual time of day in the client's own zone; without one, sessions fill no hours of their day.
    """

    client = models.OneToOneField(Client, on_delete=models.CASCADE, related_name="calendar_feed")
    secret = models.CharField(max_length=32, unique=True, default=new_secret)
    starts_at = models.TimeField(_("usual time of day"), null=True, blank=True)
    made_at = models.DateTimeField(auto_now_add=True)

    @property
    def token(self) -> str:
        """The part of the address that nobody can guess."""
        return SIGNER.sign(self.secret)

    @classmethod
    def of_token(cls, token: str) -> "CalendarFeed | None":
        """Return the feed whose address this is; None for a guessed, changed or renewed one."""
        try:
            secret = SIGNER.unsign(token)
        except signing.BadSignature:
            return None
        rows = cls.objects.select_related("client__user").filter(secret=secret, client__user__is_active=True)
        return rows.first()
