"""A person who is trained, and the link to the coach who trains them."""

import datetime as dt

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from accounts.models.practice import Membership, Practice


class TrainingStatus(models.TextChoices):
    NOVICE = "novice", _("novice")
    INTERMEDIATE = "intermediate", _("intermediate")
    ADVANCED = "advanced", _("advanced")


class ClientQuerySet(models.QuerySet["Client"]):
    def visible_to(self, user) -> "ClientQuerySet":
        from accounts import access

        return access.clients_visible_to(user, self)

    def writable_by(self, user) -> "ClientQuerySet":
        """Clients whose plan `user` may write, as their coach or the practice's owner."""
        from accounts import access

        return access.clients_coached_by(user, self)


class Client(models.Model):
    """The trained person's record in a practice. Time zone and unit of load are the user's."""

    user = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="client")
    practice = models.ForeignKey(Practice, on_delete=models.CASCADE, related_name="clients")
    training_status = models.CharField(
        _("training status"), max_length=12, choices=TrainingStatus, default=TrainingStatus.NOVICE
    )
    # {muscle group slug: "maintain" | "normal" | "focus"}; a group that is not named is "normal".
    priorities = models.JSONField(_("priorities"), default=dict, blank=True)
    # {muscle group slug: [floor, ceiling]} where the coach departs from the default range.
    target_overrides = models.JSONField(_("own target ranges"), default=dict, blank=True)
    # What one session may take, from the first set-up to the last repetition; None: nothing was said.
    minutes_per_session = models.PositiveSmallIntegerField(
        _("minutes for a session"), null=True, blank=True, validators=[MinValueValidator(15), MaxValueValidator(240)]
    )
    created_at = models.DateTimeField(auto_now_add=True)
    # Which worker makes years of this client's rows just now (coaching/recompute).
    recompute_by = models.UUIDField(null=True, editable=False)

    objects = ClientQuerySet.as_manager()

    class Meta:
        ordering = ["user__name", "pk"]

    def __str__(self) -> str:
        return str(self.user)


class EngagementQuerySet(models.QuerySet["Engagement"]):
    def visible_to(self, user) -> "EngagementQuerySet":
        """Engagements of the clients that `user` may read, and `user`'s own as a client."""
        from accounts import access

        return self.filter(client__in=access.clients_visible_to(user))

    def writable_by(self, user) -> "EngagementQuerySet":
        """Engagements that `user` may end: their own as coach or client, and all of a practice they own."""
        from accounts import access

        membership = access.membership_of(user)
        if membership and membership.role == Membership.Role.OWNER:
            mine = Q(coach__practice=membership.practice)
        else:
            mine = Q(coach=membership) if membership else Q(pk__in=[])
        return self.filter(mine | Q(client=access.client_of(user)), client__in=access.clients_visible_to(user))

    def running(self) -> "EngagementQuerySet":
        """Engagements without an end. One that ended today is not among them, though it still opens the page today."""
        return self.filter(ended_on=None)


class Engagement(models.Model):
    """One coach trains one client from a day to a day (both included); no end means it is running."""

    coach = models.ForeignKey(Membership, on_delete=models.CASCADE, related_name="engagements")
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="engagements")
    started_on = models.DateField(_("since"))
    ended_on = models.DateField(_("until"), null=True, blank=True)
    # Set where the coach only stands in for another: such an engagement always has an end.
    cover = models.ForeignKey("accounts.Cover", on_delete=models.CASCADE, null=True, related_name="engagements")

    objects = EngagementQuerySet.as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["coach", "client"], condition=Q(ended_on=None), name="engagement_one_running"
            ),
            models.CheckConstraint(
                condition=Q(ended_on=None) | Q(ended_on__gte=F("started_on")), name="engagement_ends_after_start"
            ),
            models.CheckConstraint(
                condition=Q(cover=None) | Q(ended_on__isnull=False), name="engagement_of_a_cover_ends"
            ),
            models.UniqueConstraint(fields=["cover", "client"], name="engagement_once_a_cover"),
        ]

    def __str__(self) -> str:
        return f"{self.coach.user} – {self.client}"

    def runs_on(self, day: dt.date) -> bool:
        """Say whether `day` lies in started_on..ended_on, both included."""
        return self.started_on <= day and (self.ended_on is None or day <= self.ended_on)
