"""One logged set, and what it was before an edit."""

import uuid

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from accounts.models import Client, LoadUnit
from logbook.models.log_import import brought_in_by, brought_in_index
from logbook.models.owned import LoggedByClientQuerySet
from logbook.models.session import Session
from programs.models import Exercise, PlannedSlot


class Side(models.TextChoices):
    BOTH = "both", _("both")
    LEFT = "left", _("left")
    RIGHT = "right", _("right")


class SetLog(models.Model):
    """`load` stays in the unit it was typed in, `load_kg` beside it; for an assisted exercise it is the assistance.

    `number` counts the sets of one exercise in the session from 1 (warm-ups have their own count); the two sides of a
    one-sided set share it. `performed_at` and `edited_at` are read off the client's clock: the later edit wins.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="sets")
    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="sets")
    slot = models.ForeignKey(PlannedSlot, on_delete=models.SET_NULL, null=True, blank=True, related_name="logged")
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="logged_sets")
    number = models.PositiveSmallIntegerField(_("set"))
    side = models.CharField(_("side"), max_length=5, choices=Side, default=Side.BOTH)
    warm_up = models.BooleanField(_("warm-up"), default=False)
    load = models.FloatField(_("load"))
    unit = models.CharField(_("unit"), max_length=2, choices=LoadUnit, default=LoadUnit.KG)
    load_kg = models.FloatField(_("load (kg)"))
    reps = models.PositiveSmallIntegerField(_("repetitions"))
    rir = models.FloatField(_("RIR"), null=True, blank=True)
    note = models.CharField(_("note"), max_length=300, blank=True)
    performed_at = models.DateTimeField(_("done at"))
    edited_at = models.DateTimeField()
    # The operation whose values stand: it decides between two edits made in the same millisecond.
    edited_by = models.UUIDField(null=True, blank=True)
    # The coach whose values stand; nobody, once the client has edited the set again.
    corrected_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, blank=True, related_name="+"
    )
    confirmed = models.BooleanField(
        _("load said to be right"), default=False, help_text=_("The client or a coach was asked, and said so.")
    )
    deleted_at = models.DateTimeField(null=True, blank=True)
    received_at = models.DateTimeField(auto_now_add=True)
    imported = brought_in_by("set_rows")

    objects = LoggedByClientQuerySet.as_manager()

    class Meta:
        ordering = ["performed_at", "number", "side"]
        indexes = [
            models.Index(fields=["client", "exercise", "performed_at"]),
            models.Index(fields=["session", "exercise", "number"]),
            brought_in_index("set_imported"),
        ]
        constraints = [
            models.CheckConstraint(condition=Q(load_kg__gte=0), name="set_load_not_negative"),
            # The operations hold repetitions to 100; only held seconds and steps may be more.
            models.CheckConstraint(condition=Q(reps__lte=600), name="set_reps_at_most_600"),
            models.CheckConstraint(
                condition=Q(rir=None) | (Q(rir__gte=0) & Q(rir__lte=10)), name="set_rir_between_0_and_10"
            ),
        ]


class SetHistory(models.Model):
    """The values a set had before an edit or a deletion, or those of an edit that came too late to win."""

    set = models.ForeignKey(SetLog, on_delete=models.CASCADE, related_name="history")
    values = models.JSONField()
    won = models.BooleanField(default=True, help_text=_("False: a later edit was already there."))
    edited_at = models.DateTimeField()
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["recorded_at", "pk"]
