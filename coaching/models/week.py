"""One client's week in numbers. Derived: rebuilt from the logs at any time."""

from django.db import models

from accounts.models import Client
from programs.models.assignment import OfClientQuerySet


class WeekSummary(models.Model):
    """`week` is the Monday of the client's calendar.

    `volume`: {"groups": {slug: {"planned", "done", "floor", "ceiling"}}, "muscles": {slug: {"planned", "done"}},
    "heads": {slug: {"planned", "done"}}}, fractional hard sets.
    `compliance`: sessions, sets and effort, done against prescribed. `load`: session RPE x minutes, monotony, strain.
    `inputs`: ids of the sets and sessions counted, rule ids, versions and thresholds: what "why" shows.
    `urgency` orders the board, and `urgency_reasons` says its own sum.
    """

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="weeks")
    week = models.DateField()
    volume = models.JSONField()
    compliance = models.JSONField()
    load = models.JSONField()
    inputs = models.JSONField()
    urgency = models.PositiveSmallIntegerField(default=0)
    urgency_reasons = models.JSONField(default=list)
    last_session_on = models.DateField(null=True)

    objects = OfClientQuerySet.as_manager()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["client", "week"], name="week_once")]
        indexes = [models.Index(fields=["week", "-urgency"])]
