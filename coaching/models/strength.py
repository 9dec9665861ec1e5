"""The estimated one-repetition maximum of one exercise in one session. Derived."""

from django.db import models

from accounts.models import Client
from logbook.models import Session
from programs.models import Exercise
from programs.models.assignment import OfClientQuerySet


class StrengthPoint(models.Model):
    """`inputs`: the set it came from (id, load, reps, RIR, body mass used) and the equation's name and version.

    For a one-sided exercise of which both sides can be estimated, `inputs["sides"]` has both and their difference.
    """

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="strength_points")
    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="+")
    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="strength_points")
    date = models.DateField()
    e1rm_kg = models.FloatField()
    confidence = models.FloatField()
    inputs = models.JSONField()

    objects = OfClientQuerySet.as_manager()

    class Meta:
        ordering = ["date"]
        constraints = [models.UniqueConstraint(fields=["session", "exercise"], name="strength_once_per_session")]
        indexes = [models.Index(fields=["client", "exercise", "date"])]
