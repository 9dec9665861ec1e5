"""A practice's own judgement beside the library's."""

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Practice
from programs.models.equipment import OwnOrLibraryQuerySet
from programs.models.exercise import Exercise

GRADE_NAMES = ("activation", "long_length", "loadability", "near_failure")


class GradeOverride(models.Model):
    """One grade that a practice gives otherwise than the library, with its reason and who gave it."""

    practice = models.ForeignKey(Practice, on_delete=models.CASCADE, related_name="grade_overrides")
    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="overrides")
    grade = models.CharField(_("grade"), max_length=20, choices=[(name, name) for name in GRADE_NAMES])
    value = models.PositiveSmallIntegerField(_("value"), validators=[MinValueValidator(1), MaxValueValidator(5)])
    reason = models.CharField(_("reason"), max_length=300)
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    changed_at = models.DateTimeField(auto_now=True)

    objects = OwnOrLibraryQuerySet.as_manager()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["practice", "exercise", "grade"], name="override_once")]
