"""What coaches write down for themselves about a client. The client never sees it."""

from typing import Any

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts import access
from accounts.models import Client

MOST_CHARACTERS = 4000


class CoachNoteQuerySet(models.QuerySet["CoachNote"]):
    def visible_to(self, user: Any) -> "CoachNoteQuerySet":
        """Notes about the clients whom `user` coaches.

        SECURITY: never about `user`, not even for an owner who is trained in their own practice; and not through
        clients_visible_to, which holds a person's own record.
        """
        return self.filter(client__in=access.clients_coached_by(user)).exclude(client__user=user.pk)

    def writable_by(self, user: Any) -> "CoachNoteQuerySet":
        """Their own."""
        return self.visible_to(user).filter(author=user.pk)


class CoachNote(models.Model):
    """Whoever trains the client reads it; only its author changes or removes it."""

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="coach_notes")
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    text = models.TextField(_("note"), max_length=MOST_CHARACTERS)
    written_at = models.DateTimeField(auto_now_add=True)
    edited_at = models.DateTimeField(null=True, blank=True)

    objects = CoachNoteQuerySet.as_manager()

    class Meta:
        ordering = ["-written_at", "-pk"]
        indexes = [models.Index(fields=["client", "-written_at"])]

    def __str__(self) -> str:
        return f"{self.author}: {self.text[:40]}"
