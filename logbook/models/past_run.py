"""A table of past training on its way into the log, too long to be saved while someone waits."""

import uuid

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from logbook.models.log_import import LogImport
from logbook.models.owned import LoggedByClientQuerySet


class PastRunQuerySet(LoggedByClientQuerySet):
    def writable_by(self, user) -> "PastRunQuerySet":
        """Whoever may bring the past in may stop it on its way."""
        return self.visible_to(user)

    def unfinished(self) -> "PastRunQuerySet":
        return self.filter(state__in=PastRun.UNFINISHED)


class PastRun(models.Model):
    """`table` is packed (programs/sheets/packed.py) and `how` says how it is read (services/past_run.py). It is let go
    of once it is saved, and a day after it was not.

    A worker claims the run by raising `attempt`, and saves only as long as the attempt is still its own. How many rows
    it has saved is told elsewhere (services/past_signs.py): until all of them are, no one sees what it writes here.
    """

    class State(models.TextChoices):
        QUEUED = "queued", _("waiting")
        RUNNING = "running", _("at work")
        DONE = "done", _("saved")
        REFUSED = "refused", _("not right")
        CANCELLED = "cancelled", _("stopped")
        FAILED = "failed", _("failed")

    UNFINISHED = (State.QUEUED, State.RUNNING)

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="past_runs")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, related_name="+")
    file_name = models.CharField(_("file"), max_length=120, blank=True)
    layout = models.CharField(max_length=8)
    table = models.TextField(blank=True)
    how = models.JSONField()
    rows = models.PositiveIntegerField(_("rows"))
    state = models.CharField(_("state"), max_length=12, choices=State, default=State.QUEUED)
    cancel_asked = models.BooleanField(default=False)
    attempt = models.PositiveSmallIntegerField(default=0)
    # Why nothing was saved, in words for who asked.
    fault = models.CharField(max_length=300, blank=True)
    saved = models.ForeignKey(LogImport, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    queued_at = models.DateTimeField()
    started_at = models.DateTimeField(null=True, blank=True)
    ended_at = models.DateTimeField(null=True, blank=True)

    objects = PastRunQuerySet.as_manager()

    class Meta:
        ordering = ["-queued_at"]
        indexes = [models.Index(fields=["state", "queued_at"], name="past_waiting")]

    def __str__(self) -> str:
        return self.file_name

    @property
    def unfinished(self) -> bool:
        return self.state in self.UNFINISHED
