"""A coaching business and the people who work in it."""

import datetime as dt
import zoneinfo

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from accounts.models.user import validate_time_zone


class Practice(models.Model):
    name = models.CharField(_("name"), max_length=120)
    require_coach_mfa = models.BooleanField(
        _("coaches must use a second factor"),
        default=True,
        help_text=_("Coaches see other people's health data. Turn this off only for a trial."),
    )
    time_zone = models.CharField(
        _("time zone"),
        max_length=64,
        default="UTC",
        validators=[validate_time_zone],
        help_text=_("Memberships and engagements start and end at midnight in this zone."),
    )
    created_at = models.DateTimeField(auto_now_add=True)

    def __str__(self) -> str:
        return self.name

    def today(self) -> dt.date:
        """Return the calendar day that it is now where the practice is."""
        return self.day_of(timezone.now())

    def day_of(self, moment: dt.datetime) -> dt.date:
        """Return the day of the practice's own calendar on which `moment` (with a zone) falls."""
        return moment.astimezone(zoneinfo.ZoneInfo(self.time_zone)).date()


class MembershipQuerySet(models.QuerySet["Membership"]):
    def visible_to(self, user) -> "MembershipQuerySet":
        """Everyone who works or worked in the practice in which `user` works."""
        from accounts import access

        return access.rows_of_practice(user, self, Q(), Q())

    def writable_by(self, user) -> "MembershipQuerySet":
        """The same, for its owner only."""
        from accounts import access

        return access.rows_of_practice(user, self, Q(), Q(pk__in=[]))

    def running(self) -> "MembershipQuerySet":
        return self.filter(ended_on=None)


class Membership(models.Model):
    """A coach of a practice. The owner also sees every client and every setting of it."""

    class Role(models.TextChoices):
        OWNER = "owner", _("owner")
        COACH = "coach", _("coach")

    practice = models.ForeignKey(Practice, on_delete=models.CASCADE, related_name="memberships")
    user = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="memberships")
    role = models.CharField(_("role"), max_length=10, choices=Role, default=Role.COACH)
    started_on = models.DateField(_("since"))
    ended_on = models.DateField(_("until"), null=True, blank=True)

    objects = MembershipQuerySet.as_manager()

    class Meta:
        constraints = [
            # One running membership a person keeps "my practice" a single answer everywhere.
            models.UniqueConstraint(fields=["user"], condition=Q(ended_on=None), name="membership_one_running"),
        ]

    def __str__(self) -> str:
        return f"{self.user} ({self.get_role_display()})"

    def runs_on(self, day: dt.date) -> bool:
        """Say whether `day` lies in started_on..ended_on, both included."""
        return self.started_on <= day and (self.ended_on is None or day <= self.ended_on)
