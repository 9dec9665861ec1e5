"""One coach stands in for another, from a day to a day."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from accounts.models.practice import Membership


class CoverQuerySet(models.QuerySet["Cover"]):
    def visible_to(self, user) -> "CoverQuerySet":
        """All of the practice for its owner; for a coach, those in which they are away or stand in."""
        from accounts import access

        membership = access.membership_of(user)
        mine = Q(away=membership) | Q(by=membership)
        return access.rows_of_practice(user, self, Q(), mine)

    def writable_by(self, user) -> "CoverQuerySet":
        """The owner's all; a coach's own absence."""
        from accounts import access

        return access.rows_of_practice(user, self, Q(), Q(away=access.membership_of(user)))


class Cover(models.Model):
    """`away` is on holiday or ill from `starts_on` to `ends_on` (both included), and `by` trains their clients.

    Each client gets an engagement with these days (`Engagement.cover`): the door knows no other way in.
    """

    practice = models.ForeignKey("accounts.Practice", on_delete=models.CASCADE, related_name="covers")
    away = models.ForeignKey(Membership, on_delete=models.CASCADE, related_name="absences", verbose_name=_("away"))
    by = models.ForeignKey(Membership, on_delete=models.CASCADE, related_name="covers", verbose_name=_("stands in"))
    starts_on = models.DateField(_("first day"))
    ends_on = models.DateField(_("last day"))
    arranged_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    arranged_at = models.DateTimeField(auto_now_add=True)

    objects = CoverQuerySet.as_manager()

    class Meta:
        ordering = ["starts_on", "pk"]
        constraints = [
            models.CheckConstraint(condition=Q(ends_on__gte=F("starts_on")), name="cover_ends_after_start"),
            models.CheckConstraint(condition=~Q(away=F("by")), name="cover_by_another"),
        ]
