"""A single-use link by which a coach or a client joins a practice."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from accounts.models.practice import Practice


class InvitationQuerySet(models.QuerySet["Invitation"]):
    def visible_to(self, user) -> "InvitationQuerySet":
        """All of a practice for its owner; for a coach, those they sent themselves."""
        from accounts import access

        return access.rows_of_practice(user, self, Q(), Q(invited_by=user.pk))

    def writable_by(self, user) -> "InvitationQuerySet":
        """Whoever sees an invitation may send it again or withdraw it."""
        return self.visible_to(user)

    def open(self) -> "InvitationQuerySet":
        """Neither accepted, withdrawn nor expired."""
        return self.filter(accepted_at=None, withdrawn_at=None, expires_at__gt=timezone.now())


class Invitation(models.Model):
    """Only the hash of the link's secret is stored: a leaked database opens no account."""

    class Kind(models.TextChoices):
        CLIENT = "client", _("client")
        COACH = "coach", _("coach")

    practice = models.ForeignKey(Practice, on_delete=models.CASCADE, related_name="invitations")
    kind = models.CharField(_("invited as"), max_length=10, choices=Kind, default=Kind.CLIENT)
    email = models.EmailField(_("e-mail address"))
    name = models.CharField(_("name"), max_length=120, blank=True)
    token_hash = models.CharField(max_length=64, unique=True)
    invited_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)
    expires_at = models.DateTimeField(_("valid until"))
    accepted_at = models.DateTimeField(null=True, blank=True)
    accepted_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, blank=True, related_name="+"
    )
    withdrawn_at = models.DateTimeField(null=True, blank=True)

    objects = InvitationQuerySet.as_manager()

    class State(models.TextChoices):
        OPEN = "open", _("open")
        ACCEPTED = "accepted", _("accepted")
        WITHDRAWN = "withdrawn", _("withdrawn")
        EXPIRED = "expired", _("expired")

    class Meta:
        ordering = ["-created_at"]

    def __str__(self) -> str:
        return f"{self.email} ({self.get_kind_display()})"

    @property
    def state(self) -> "Invitation.State":
        """Say where the invitation stands now."""
        if self.accepted_at:
            return self.State.ACCEPTED
        if self.withdrawn_at:
            return self.State.WITHDRAWN
        return self.State.OPEN if self.expires_at > timezone.now() else self.State.EXPIRED

    @property
    def can_be_sent_again(self) -> bool:
        return self.state in (self.State.OPEN, self.State.EXPIRED)
