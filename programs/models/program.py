"""A written program. Its content is one document; every change is a revision that can be returned to."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts import access
from accounts.models import Membership, Practice
from accounts.models.client import TrainingStatus


class ProgramQuerySet(models.QuerySet["Program"]):
    def visible_to(self, user) -> "ProgramQuerySet":
        """Programs of the practice in which the user coaches; clients see their plan, not the program."""
        membership = access.membership_of(user)
        return self.filter(practice=membership.practice) if membership else self.none()

    def writable_by(self, user) -> "ProgramQuerySet":
        """The author's own programs; the practice's owner may change all."""
        membership = access.membership_of(user)
        if membership is None:
            return self.none()
        rows = self.filter(practice=membership.practice)
        return rows if membership.role == Membership.Role.OWNER else rows.filter(author=user)


class Program(models.Model):
    """`document` is blocks -> weeks -> days -> slots (programs/document describes and checks it).

    `version` counts saved changes: a writer names the version it started from, so two windows cannot overwrite
    each other silently.
    """

    practice = models.ForeignKey(Practice, on_delete=models.CASCADE, related_name="programs")
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    name = models.CharField(_("name"), max_length=120)
    note = models.TextField(_("note"), blank=True)
    document = models.JSONField(default=dict)
    version = models.PositiveIntegerField(default=0)
    # For whom and on which weekdays it is thought: what the tally beside the editor is judged by. Assigning asks anew.
    written_for = models.CharField(
        _("written for"), max_length=12, choices=TrainingStatus, default=TrainingStatus.INTERMEDIATE
    )
    # What a draft was asked for, {group: [floor, ceiling, priority]}, and whether the tally is judged by it, not by the
    # ranges of `written_for`. Kept when it is not, so that one can return to it.
    asked_ranges = models.JSONField(default=dict, blank=True)
    judge_by_asked = models.BooleanField(default=False)
    weekdays = models.JSONField(_("weekdays"), default=list, blank=True, help_text=_("Monday is 0."))
    # What a session may take; the editor says which days are longer.
    session_minutes = models.PositiveSmallIntegerField(_("minutes a session may take"), default=75)
    created_at = models.DateTimeField(auto_now_add=True)
    updated_at = models.DateTimeField(auto_now=True)
    archived_at = models.DateTimeField(null=True, blank=True)

    objects = ProgramQuerySet.as_manager()

    class Meta:
        ordering = ["-updated_at", "pk"]

    def __str__(self) -> str:
        return self.name


class ProgramRevision(models.Model):
    """The document as it was after change number `version`, who made it and what it was, in words.

    `restores` names the earlier version that an undo or a redo brought back.
    """

    program = models.ForeignKey(Program, on_delete=models.CASCADE, related_name="revisions")
    version = models.PositiveIntegerField()
    document = models.JSONField()
    summary = models.CharField(max_length=200)
    restores = models.PositiveIntegerField(null=True, blank=True)
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-version"]
        constraints = [models.UniqueConstraint(fields=["program", "version"], name="revision_once")]
