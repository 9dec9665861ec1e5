"""One performed training."""

import uuid

from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from logbook.models.log_import import brought_in_by, brought_in_index
from logbook.models.owned import LoggedByClientQuerySet
from programs.models import PlannedSession


class Session(models.Model):
    """`id` is made on the phone. `date` is the day in the client's zone on which the session began.

    RPE and minutes carry one clock (`edited_at`), the note another (`note_edited_at`): of two edits the later by the
    client's own clock stands, whatever the order in which they arrive.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="sessions")
    planned = models.OneToOneField(
        PlannedSession, on_delete=models.SET_NULL, null=True, blank=True, related_name="performed"
    )
    date = models.DateField(_("date"))
    started_at = models.DateTimeField(_("started"))
    finished_at = models.DateTimeField(_("finished"), null=True, blank=True)
    session_rpe = models.FloatField(_("session RPE (0-10)"), null=True, blank=True)
    minutes = models.PositiveSmallIntegerField(_("minutes"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)
    edited_at = models.DateTimeField(null=True, blank=True)
    note_edited_at = models.DateTimeField(null=True, blank=True)
    # [{"values": {...}, "edited_at": "...", "won": bool}]: what stood before, and what came too late to stand.
    earlier = models.JSONField(default=list, blank=True)
    imported = brought_in_by("session_rows")

    objects = LoggedByClientQuerySet.as_manager()

    class Meta:
        ordering = ["-started_at"]
        indexes = [models.Index(fields=["client", "date"]), brought_in_index("session_imported")]

    def __str__(self) -> str:
        return f"{self.client}: {self.date}"
