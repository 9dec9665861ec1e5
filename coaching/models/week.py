"""One client's week in numbers. Derived: rebuilt from the logs at any time."""

from django.db import models

from accounts.models import Client
from programs.models.assignment import OfClientQuerySet


class WeekSummary(models.Model):
    """`week` is the Monday of the client's calendar.

    `volume`: {"groups": {slug: {"planned", "done", "floor", "ceiling"}}, "muscles": {slug: {"planned", "done"}},
    "heads": {slug: {"planned", "done"}}}, fractional hard sets.
    `compliance`: sessions, sets and effort, done against prescribed. `load`: session RPE x minutes, monotony, strain.
    `trends`: {exercise id: {"level_kg": [low, middle, high], "slope_percent_week", "code", "params", "recent"}} as of
    `as_of`; `recent` are the latest sessions' e1RM, kg, oldest first; without a level, the code says why there is none.
    `check_ins`: {"days": [each day's total and items against the client's own usual]}: description, like `load`.
    `body`: {"masses": [each day's, kg], "pain": [{"site", "side", "reports", "worst", "last", "ids"}]}.
    `inputs`: ids of the sets and slots counted, the credits, rule ids and versions: what "why" shows.
    `as_of` is the day it was computed while the week ran, and the Monday after it once the week was over.
    `rules` is the print of all rules, thresholds and target ranges behind it: a row with another one is stale.
    `questions`: those beside the deload, {prompt id: [kind, the last day it is worth asking]}.
    `urgency` orders the board, and `urgency_reasons` says its own sum.
    """

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="weeks")
    week = models.DateField()
    as_of = models.DateField()
    rules = models.CharField(max_length=16)
    volume = models.JSONField()
    compliance = models.JSONField()
    load = models.JSONField()
    trends = models.JSONField(default=dict)
    check_ins = models.JSONField(default=dict)
    body = models.JSONField(default=dict)
    inputs = models.JSONField()
    urgency = models.PositiveSmallIntegerField(default=0)
    urgency_reasons = models.JSONField(default=list)
    questions = models.JSONField(default=dict)
    last_session_on = models.DateField(null=True)

    objects = OfClientQuerySet.as_manager()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["client", "week"], name="week_once")]
        indexes = [models.Index(fields=["week", "-urgency"])]
