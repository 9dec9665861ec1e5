"""Weekly letters that went out: what keeps a letter from going twice."""

from django.conf import settings
from django.db import models


class WeeklyLetter(models.Model):
    """One a person, kind and week (the Monday of the week it tells about).

    Written before the letter is sent: a crash in between loses that letter rather than sending two.
    """

    class Kind(models.TextChoices):
        CLIENT = "client"
        COACH = "coach"

    user = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    kind = models.CharField(max_length=8, choices=Kind)
    week = models.DateField()
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["user", "kind", "week"], name="letter_once")]
