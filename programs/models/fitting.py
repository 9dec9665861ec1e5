"""A program on its way to clients: what the coach has said so far to each proposed difference."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from programs.models.program import Program


class FittingQuerySet(models.QuerySet["Fitting"]):
    def visible_to(self, user) -> "FittingQuerySet":
        """The user's own; nobody else decides in their name."""
        return self.filter(author=user, program__in=Program.objects.visible_to(user))

    def writable_by(self, user) -> "FittingQuerySet":
        return self.visible_to(user)


class Fitting(models.Model):
    """Who is to get the program and when. `choices` holds only what departs from the proposals:
    {client id: {proposal id: {"accept": bool, "to": exercise id or 0, "number": number}}}."""

    program = models.ForeignKey(Program, on_delete=models.CASCADE, related_name="fittings")
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    clients = models.ManyToManyField(Client, related_name="+")
    starts_on = models.DateField(_("first day"))
    weekdays = models.JSONField(_("weekdays"))
    end_running = models.BooleanField(default=True)
    choices = models.JSONField(default=dict, blank=True)
    created_at = models.DateTimeField(auto_now_add=True)
    assigned_at = models.DateTimeField(null=True, blank=True)

    objects = FittingQuerySet.as_manager()

    class Meta:
        ordering = ["-pk"]
