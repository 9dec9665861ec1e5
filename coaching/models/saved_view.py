"""A way to sift the week that a coach comes back to."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Membership


class SavedView(models.Model):
    """`query` is what stands after the question mark of the board's address, without week and page."""

    membership = models.ForeignKey(Membership, on_delete=models.CASCADE, related_name="saved_views")
    name = models.CharField(_("name"), max_length=40)
    query = models.CharField(max_length=400, blank=True)

    class Meta:
        ordering = ["name", "pk"]
        constraints = [models.UniqueConstraint(fields=["membership", "name"], name="saved_view_once")]

    def __str__(self) -> str:
        return self.name
