"""What the coach answered. Not derived: it survives every rebuild."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from programs.models.assignment import OfClientQuerySet


class Decision(models.Model):
    """`prompt_id` names a Prompt without a foreign key, since prompts are rebuilt. `changes` holds before and after of
    every plan row written, which is what undo needs."""

    class Answer(models.TextChoices):
        ACCEPT = "accept", _("accepted")
        REFUSE = "refuse", _("refused")

    prompt_id = models.UUIDField()
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="decisions")
    coach = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    kind = models.CharField(max_length=20)
    week = models.DateField()
    answer = models.CharField(_("answer"), max_length=10, choices=Answer)
    reason = models.CharField(_("reason"), max_length=300, blank=True)
    proposal = models.JSONField()
    changes = models.JSONField(default=list)
    decided_at = models.DateTimeField(auto_now_add=True)
    undone_at = models.DateTimeField(null=True, blank=True)

    objects = OfClientQuerySet.as_manager()

    class Meta:
        ordering = ["-decided_at"]
        constraints = [
            models.UniqueConstraint(
                fields=["prompt_id"], condition=models.Q(undone_at=None), name="decision_one_standing"
            ),
        ]
