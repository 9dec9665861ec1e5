"""An exercise of the plan that the client left out, and why."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from logbook.models.owned import LoggedByClientQuerySet
from logbook.models.session import Session
from programs.models import PlannedSlot


class SlotSkip(models.Model):
    """`skipped` turns false when the client takes it back; the later edit by the client's clock stands."""

    class Reason(models.TextChoices):
        TIME = "time", _("no time")
        TAKEN = "taken", _("equipment taken")
        MISSING = "missing", _("equipment not there")
        PAIN = "pain", _("pain")
        OTHER = "other", _("another reason")

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="slot_skips")
    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="skips")
    slot = models.ForeignKey(PlannedSlot, on_delete=models.CASCADE, related_name="skips")
    skipped = models.BooleanField(default=True)
    reason = models.CharField(_("reason"), max_length=10, choices=Reason, default=Reason.OTHER)
    edited_at = models.DateTimeField()

    objects = LoggedByClientQuerySet.as_manager()

    class Meta:
        ordering = ["slot__position"]
        constraints = [models.UniqueConstraint(fields=["session", "slot"], name="skip_once")]
