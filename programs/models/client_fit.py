"""What a client has and must not: equipment at hand, and what is closed to them."""

import datetime as dt

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from programs.models.assignment import OfClientQuerySet
from programs.models.equipment import Equipment
from programs.models.exercise import Exercise
from programs.models.limit import Limit


class ClientLimitQuerySet(OfClientQuerySet):
    def holding(self, day: dt.date) -> "ClientLimitQuerySet":
        """Return the limits that hold on `day` or begin later: a plan that is made now must keep all of them."""
        return self.filter(Q(until=None) | Q(until__gte=day))


class ClientLimit(models.Model):
    """A joint stress or position, or one exercise, to be kept from a client. What it is a sign of is not said here."""

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="limits")
    limit = models.ForeignKey(Limit, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, null=True, blank=True, related_name="+")
    since = models.DateField(_("since"))
    until = models.DateField(_("until"), null=True, blank=True, help_text=_("The last day; empty: until taken off."))
    note = models.CharField(_("note"), max_length=200, blank=True)
    told_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)

    objects = ClientLimitQuerySet.as_manager()

    class Meta:
        ordering = ["limit__position", "exercise__name", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(limit=None, exercise__isnull=False) | Q(limit__isnull=False, exercise=None),
                name="client_limit_one_thing",
            ),
            models.CheckConstraint(condition=Q(until=None) | Q(until__gte=F("since")), name="client_limit_days"),
        ]

    def __str__(self) -> str:
        return str(self.limit or self.exercise)


class ClientEquipment(models.Model):
    """One thing that the client can train with. A client without any row has everything."""

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="equipment")
    equipment = models.ForeignKey(Equipment, on_delete=models.CASCADE, related_name="+")
    told_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)

    objects = OfClientQuerySet.as_manager()

    class Meta:
        ordering = ["equipment__name"]
        constraints = [models.UniqueConstraint(fields=["client", "equipment"], name="client_equipment_once")]
