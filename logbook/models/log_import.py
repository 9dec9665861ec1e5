"""A table of past training that was brought in."""

import uuid

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from logbook.models.owned import LoggedByClientQuerySet


class LogImportQuerySet(LoggedByClientQuerySet):
    def writable_by(self, user) -> "LogImportQuerySet":
        """The client's own, and those of clients whom `user` coaches: both may bring the past in, and take it back."""
        return self.visible_to(user)


class LogImport(models.Model):
    """Past training brought in from a table: who did it and when, what it added, and whether it was taken back.

    The rows that it added point here. `at` is also their `edited_at`, by which an import knows that nobody has changed
    them since.
    """

    class Kind(models.TextChoices):
        SETS = "sets", _("sets")
        DAYS = "days", _("check-ins and body mass")

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="log_imports")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, related_name="+")
    at = models.DateTimeField(_("brought in at"))
    kind = models.CharField(_("kind"), max_length=4, choices=Kind)
    file_name = models.CharField(_("file"), max_length=120, blank=True)
    first_day = models.DateField(_("first day"))
    last_day = models.DateField(_("last day"))
    sessions = models.PositiveIntegerField(_("sessions"), default=0)
    sets = models.PositiveIntegerField(_("sets"), default=0)
    check_ins = models.PositiveIntegerField(_("check-ins"), default=0)
    body_masses = models.PositiveIntegerField(_("body masses"), default=0)
    skipped = models.PositiveIntegerField(_("rows left out"), default=0)
    taken_back_at = models.DateTimeField(_("taken back at"), null=True, blank=True)
    taken_back_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, related_name="+")

    objects = LogImportQuerySet.as_manager()

    class Meta:
        ordering = ["-at"]

    def __str__(self) -> str:
        return f"{self.client}: {self.file_name}"


def brought_in_by(name: str) -> models.ForeignKey:
    """Return the field by which an imported row knows its import; most have none, and take no room in its index."""
    return models.ForeignKey(
        LogImport,
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        editable=False,
        db_index=False,
        related_name=name,
        verbose_name=_("brought in with"),
    )


def brought_in_index(name: str) -> models.Index:
    return models.Index(fields=["imported"], name=name, condition=models.Q(imported__isnull=False))
