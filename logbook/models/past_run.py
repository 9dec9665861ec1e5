"""A table of past training on its way into the log, too long to be read or saved while someone waits."""

import uuid

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from logbook.models.log_import import LogImport
from logbook.models.owned import LoggedByClientQuerySet
from programs.sheets.errors import fault_words


class PastRunQuerySet(LoggedByClientQuerySet):
    def writable_by(self, user) -> "PastRunQuerySet":
        """Whoever may bring the past in may stop it on its way."""
        return self.visible_to(user)

    def unfinished(self) -> "PastRunQuerySet":
        return self.filter(state__in=PastRun.UNFINISHED)

    def standing(self) -> "PastRunQuerySet":
        """Those at work, and those that wait for a person to look at them; without what they hold."""
        rows = self.filter(state__in=(*PastRun.UNFINISHED, PastRun.State.READ))
        return rows.defer("file", "table", "typed", "seen")


class PastRun(models.Model):
    """Read first, so that a person can look at it, then saved (`act`). `file` is what was uploaded, until it is read;
    `table` is packed (programs/sheets/packed.py), `how` says how it is read (services/past_run.py), `typed` what is to
    be mended in it before, and `seen` what reading found (services/past_seen.py), in the language of who asked. All are
    let go of once the table is saved or discarded, and a day after nothing came of it.

    A worker claims the run by raising `attempt`, and saves only as long as the attempt is still its own. How many rows
    it has saved is told elsewhere (services/past_signs.py): until all of them are, no one sees what it writes here.
    """

    class State(models.TextChoices):
        QUEUED = "queued", _("waiting")
        RUNNING = "running", _("at work")
        READ = "read", _("read")
        DONE = "done", _("saved")
        REFUSED = "refused", _("not right")
        CANCELLED = "cancelled", _("stopped")
        FAILED = "failed", _("failed")

    class Act(models.TextChoices):
        READ = "read", _("to be read")
        SAVE = "save", _("to be saved")

    UNFINISHED = (State.QUEUED, State.RUNNING)

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="past_runs")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, related_name="+")
    file_name = models.CharField(_("file"), max_length=120, blank=True)
    act = models.CharField(max_length=4, choices=Act, default=Act.SAVE)
    file = models.BinaryField(null=True)
    # Of the uploaded file, so that a double press is one run.
    digest = models.CharField(max_length=64, blank=True)
    layout = models.CharField(max_length=8, blank=True)
    table = models.TextField(blank=True)
    how = models.JSONField()
    typed = models.JSONField(default=dict)
    seen = models.JSONField(default=dict)
    language = models.CharField(max_length=16, blank=True)
    rows = models.PositiveIntegerField(_("rows"), default=0)
    state = models.CharField(_("state"), max_length=12, choices=State, default=State.QUEUED)
    cancel_asked = models.BooleanField(default=False)
    attempt = models.PositiveSmallIntegerField(default=0)
    # Why nothing was saved: a code of programs/sheets/errors.py and its parameters.
    fault = models.CharField(max_length=300, blank=True)
    fault_params = models.JSONField(default=dict)
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

    @property
    def fault_words(self) -> str:
        """Why nothing was saved, in the reader's language."""
        return fault_words(self.fault, self.fault_params)
