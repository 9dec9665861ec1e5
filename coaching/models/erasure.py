"""That somebody was erased: numbers alone, nothing that says who."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from accounts import access
from accounts.models import Practice


class ErasureQuerySet(models.QuerySet["Erasure"]):
    def visible_to(self, user) -> "ErasureQuerySet":
        """Those of a practice, for its owner."""
        return access.rows_of_practice(user, self, Q(), Q(pk__in=[]))


class Erasure(models.Model):
    """What was removed: `counts` is {table: rows}."""

    practice = models.ForeignKey(Practice, on_delete=models.CASCADE, related_name="erasures")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, related_name="+")
    at = models.DateTimeField(auto_now_add=True)
    counts = models.JSONField()

    objects = ErasureQuerySet.as_manager()

    class Meta:
        ordering = ["-at", "-pk"]

    @property
    def rows(self) -> int:
        return sum(self.counts.values())
