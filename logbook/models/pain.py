"""A report of pain: how much, and where."""

import uuid

from django.core.validators import MaxValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from logbook.models.owned import LoggedByClientQuerySet
from logbook.models.session import Session
from programs.models import Exercise, Site


class PainReport(models.Model):
    """0 none to 10 worst. Over 5 stops the exercise; the software never says what the pain is."""

    Site = Site

    class Side(models.TextChoices):
        LEFT = "left", _("left")
        RIGHT = "right", _("right")
        MIDDLE = "middle", _("middle or both")

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="pain_reports")
    session = models.ForeignKey(Session, on_delete=models.CASCADE, null=True, blank=True, related_name="pain_reports")
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    site = models.CharField(_("where"), max_length=12, choices=Site)
    side = models.CharField(_("side"), max_length=6, choices=Side, default=Side.MIDDLE)
    score = models.PositiveSmallIntegerField(_("pain, 0-10"), validators=[MaxValueValidator(10)])
    note = models.CharField(_("note"), max_length=300, blank=True)
    reported_at = models.DateTimeField(_("reported"))

    objects = LoggedByClientQuerySet.as_manager()

    class Meta:
        ordering = ["-reported_at"]
        indexes = [models.Index(fields=["client", "reported_at"])]
