"""A later version of a program, brought to a client's running copy: what it changed, so that it can be taken back."""

from django.conf import settings
from django.db import models

from accounts import access
from programs.models.assignment import Assignment, PlannedSession


class AssignmentRevisionQuerySet(models.QuerySet["AssignmentRevision"]):
    def visible_to(self, user) -> "AssignmentRevisionQuerySet":
        return self.filter(assignment__client__in=access.clients_visible_to(user))

    def writable_by(self, user) -> "AssignmentRevisionQuerySet":
        return self.filter(assignment__client__in=access.clients_coached_by(user))


class AssignmentRevision(models.Model):
    """One assignment taken from one version of its program to a later one.

    `fitting`: the version stayed, and the client's own adaptations changed; taken back one by one, there.
    `left_alone`: [{"date", "day", "why"}], what was not changed and why, as it stood then.
    """

    assignment = models.ForeignKey(Assignment, on_delete=models.CASCADE, related_name="revisions")
    from_version = models.PositiveIntegerField()
    to_version = models.PositiveIntegerField()
    weekdays_before = models.JSONField(default=list)
    left_alone = models.JSONField(default=list)
    fitting = models.BooleanField(default=False)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    made_at = models.DateTimeField()
    undone_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    undone_at = models.DateTimeField(null=True, blank=True)

    objects = AssignmentRevisionQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at", "-pk"]


class SessionRevision(models.Model):
    """What a revision wrote on one planned session.

    `before` and `after` hold the session's changed fields (`before` None: the session was made), `slots` one
    {"slot", "before", "after"} for each row: None before for one that was added, None after for one taken out.
    `kept` says why the session could not be put back when the revision was undone, and is empty when it was.
    """

    revision = models.ForeignKey(AssignmentRevision, on_delete=models.CASCADE, related_name="sessions")
    session = models.ForeignKey(PlannedSession, on_delete=models.CASCADE, related_name="revisions")
    before = models.JSONField(null=True)
    after = models.JSONField()
    slots = models.JSONField(default=list)
    # The client was training already when the revision came; nobody but the phone knew.
    withdrawn_at = models.DateTimeField(null=True, blank=True)
    kept = models.CharField(max_length=12, blank=True)

    class Meta:
        ordering = ["session__date", "pk"]
        constraints = [models.UniqueConstraint(fields=["revision", "session"], name="session_once_a_revision")]
