"""Literature behind a claim, as CSL-JSON."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from programs.models.exercise import Exercise


class Reference(models.Model):
    slug = models.SlugField(unique=True)
    csl = models.JSONField(_("CSL-JSON item"))

    class Meta:
        ordering = ["slug"]

    def __str__(self) -> str:
        return self.slug


class ExerciseReference(models.Model):
    """Which claim of an exercise (the name of a grade) a reference stands behind."""

    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="references")
    reference = models.ForeignKey(Reference, on_delete=models.PROTECT, related_name="+")
    claim = models.CharField(max_length=20)

    class Meta:
        ordering = ["claim", "reference__slug"]
        constraints = [models.UniqueConstraint(fields=["exercise", "reference", "claim"], name="claim_once")]
