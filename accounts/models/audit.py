"""Who of a practice looked at a client's pages, and who changed what."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from accounts.models.client import Client
from accounts.models.practice import Membership, Practice


class AuditEntryQuerySet(models.QuerySet["AuditEntry"]):
    def visible_to(self, user) -> "AuditEntryQuerySet":
        """All of the practice for its owner; for a client, what was about them; nothing for anybody else."""
        from accounts import access

        membership = access.membership_of(user)
        if membership and membership.role == Membership.Role.OWNER:
            return self.filter(practice=membership.practice)
        own = access.client_of(user)
        return self.filter(client=own) if own else self.none()


class AuditEntry(models.Model):
    """One act of a coach. `page` is the route's name, which `accounts/audit/words.py` has words for.

    Looking is kept once a day, page and client; a change about a client each time. Nothing typed is kept here.
    """

    class Kind(models.TextChoices):
        SAW = "saw", _("looked at")
        CHANGED = "changed", _("changed")

    practice = models.ForeignKey(Practice, on_delete=models.CASCADE, related_name="audit_entries")
    actor = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    client = models.ForeignKey(Client, on_delete=models.CASCADE, null=True, related_name="audit_entries")
    kind = models.CharField(max_length=8, choices=Kind)
    page = models.CharField(max_length=80)
    day = models.DateField(help_text="In UTC.")
    at = models.DateTimeField(auto_now_add=True)

    objects = AuditEntryQuerySet.as_manager()

    class Meta:
        ordering = ["-at", "-pk"]
        # By day: every sweep asks whether there is anything old enough to forget.
        indexes = [
            models.Index(fields=["practice", "-at"]),
            models.Index(fields=["client", "-at"]),
            models.Index(fields=["day"]),
        ]
        constraints = [
            models.UniqueConstraint(
                fields=["actor", "client", "page", "day"], condition=Q(kind="saw"), name="audit_saw_once_a_day"
            ),
            # What is about no client (a program, an exercise) has its own history where it matters.
            models.UniqueConstraint(
                fields=["actor", "page", "day"],
                condition=Q(kind="changed", client=None),
                name="audit_of_no_client_once_a_day",
            ),
        ]
