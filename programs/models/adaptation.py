"""One difference between a client's copy of a program and the program as written."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from programs.models.assignment import Assignment, OfClientQuerySet
from programs.models.exercise import Exercise


class Adaptation(models.Model):
    """What is done differently, why, by whom and since when. `undone_at`: it no longer counts; the record stays.

    `slots` are keys of the document; empty: wherever `exercise` is written, also where a later revision writes it.
    `change` holds the numbers of the kind: {"factor"}, {"less"}, {"rir"}, {"pairs"}, {"load_kg"}.
    """

    class Kind(models.TextChoices):
        SWAP = "swap", _("another exercise")
        LEAVE_OUT = "leave-out", _("left out")
        ONE_SIDE = "one-side", _("one side at a time")
        SCALE = "scale", _("sets scaled")
        FEWER = "fewer", _("fewer sets")
        RIR = "rir", _("more in reserve")
        PAIR = "pair", _("paired sets")
        CAREFUL = "careful", _("careful first session")
        START = "start", _("starting load")

    assignment = models.ForeignKey(Assignment, on_delete=models.CASCADE, related_name="adaptations")
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="adaptations")
    kind = models.CharField(max_length=12, choices=Kind)
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    to_exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    slots = models.JSONField(default=list, blank=True)
    change = models.JSONField(default=dict, blank=True)
    reason = models.CharField(max_length=40)
    reason_params = models.JSONField(default=dict, blank=True)
    # Made for some days only (a journey): the first and the last of them. What it does is said by `slots` all the same.
    starts_on = models.DateField(null=True, blank=True)
    until = models.DateField(null=True, blank=True)
    # The coach chose something else than what was proposed.
    edited = models.BooleanField(default=False)
    created_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)
    undone_at = models.DateTimeField(null=True, blank=True)
    undone_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )

    objects = OfClientQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
