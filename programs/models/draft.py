"""A request for a drafted week, and what became of it."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts import access
from accounts.models import Client, Membership, Practice
from programs.draft_faults import fault_words
from programs.models.program import Program


class DraftRunQuerySet(models.QuerySet["DraftRun"]):
    def visible_to(self, user) -> "DraftRunQuerySet":
        """The author's own drafts, and all of the practice for its owner; those for a client only to who trains them
        (a draft tells the client's limits)."""
        membership = access.membership_of(user)
        if membership is None:
            return self.none()
        rows = self.filter(practice=membership.practice)
        if membership.role != Membership.Role.OWNER:
            rows = rows.filter(author=user)
        return rows.filter(models.Q(client=None) | models.Q(client__in=access.clients_coached_by(user).values("pk")))

    def writable_by(self, user) -> "DraftRunQuerySet":
        """Whoever may read a draft may stop it, run it again and make it a program."""
        return self.visible_to(user)

    def unfinished(self) -> "DraftRunQuerySet":
        return self.filter(state__in=DraftRun.UNFINISHED)


class DraftRun(models.Model):
    """`ask` is what was asked for (services/draft_ask.py), `progress` how far the solver is (seconds, points of the
    best week, bound, gap), `result` what came out (services/draft_outcome.py).

    A worker claims the run by raising `attempt`, and writes only as long as the attempt is still its own; `alive_at` is
    its last sign of life.
    """

    class State(models.TextChoices):
        QUEUED = "queued", _("waiting")
        RUNNING = "running", _("at work")
        DONE = "done", _("drafted")
        CLASH = "clash", _("demands clash")
        NO_ANSWER = "no_answer", _("no answer in time")
        CANCELLED = "cancelled", _("stopped")
        FAILED = "failed", _("failed")

    UNFINISHED = (State.QUEUED, State.RUNNING)

    practice = models.ForeignKey(Practice, on_delete=models.CASCADE, related_name="drafts")
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    client = models.ForeignKey(Client, on_delete=models.CASCADE, null=True, blank=True, related_name="drafts")
    name = models.CharField(_("name"), max_length=120)
    ask = models.JSONField()
    state = models.CharField(_("state"), max_length=12, choices=State, default=State.QUEUED)
    cancel_asked = models.BooleanField(default=False)
    attempt = models.PositiveSmallIntegerField(default=0)
    progress = models.JSONField(default=dict)
    result = models.JSONField(default=dict)
    # Why it failed: a code of programs/draft_faults.py and its parameters.
    fault = models.CharField(max_length=300, blank=True)
    fault_params = models.JSONField(default=dict)
    program = models.ForeignKey(Program, on_delete=models.SET_NULL, null=True, blank=True, related_name="drafts")
    created_at = models.DateTimeField(auto_now_add=True)
    queued_at = models.DateTimeField()
    started_at = models.DateTimeField(null=True, blank=True)
    alive_at = models.DateTimeField(null=True, blank=True)
    ended_at = models.DateTimeField(null=True, blank=True)

    objects = DraftRunQuerySet.as_manager()

    class Meta:
        ordering = ["-created_at", "-pk"]
        indexes = [models.Index(fields=["state", "queued_at"], name="draft_waiting")]

    def __str__(self) -> str:
        return self.name

    @property
    def unfinished(self) -> bool:
        return self.state in self.UNFINISHED

    @property
    def fault_words(self) -> str:
        """Why it failed, in the reader's language."""
        return fault_words(self.fault, self.fault_params)
