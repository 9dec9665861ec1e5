"""A single-use link by which a coach or a client joins a practice."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models.practice import Practice


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

    class Meta:
        ordering = ["-created_at"]

    def __str__(self) -> str:
        return f"{self.email} ({self.get_kind_display()})"
