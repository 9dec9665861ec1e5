"""What a client answered before training, and what a clinician said about it."""

from django.conf import settings
from django.db import models
from django.db.models import OuterRef, Subquery
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from logbook.models.owned import LoggedByClientQuerySet
from periodization.screening import CLINICIAN_FIRST
from programs.models.assignment import OfClientQuerySet


class ScreeningQuerySet(LoggedByClientQuerySet):
    def with_word(self) -> "ScreeningQuerySet":
        """Add `cleared`: the latest clearance's yes or no, None when nobody recorded one."""
        words = Clearance.objects.filter(screening=OuterRef("pk")).order_by("-pk")
        return self.annotate(cleared=Subquery(words.values("cleared")[:1]))


class Screening(models.Model):
    """One round of answers. A new round does not change an earlier one; the newest counts.

    `version` is that of the questions (logbook/screening_questions.py keeps the words of every version), `answers`
    {code: true or false}, `outcome` and `because` what periodization.screening made of them under rule `rule_version`.
    """

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="screenings")
    version = models.PositiveSmallIntegerField()
    answers = models.JSONField()
    outcome = models.CharField(max_length=12)
    because = models.JSONField(default=list)
    rule_version = models.PositiveSmallIntegerField()
    note = models.CharField(_("note"), max_length=300, blank=True)
    answered_at = models.DateTimeField()

    objects = ScreeningQuerySet.as_manager()

    class Meta:
        ordering = ["-answered_at", "-pk"]
        indexes = [models.Index(fields=["client", "-answered_at"])]

    @property
    def clinician_first(self) -> bool:
        return self.outcome in CLINICIAN_FIRST


class Clearance(models.Model):
    """What the coach was told by a clinician, or with the clinician's paper. The software itself clears nobody."""

    screening = models.ForeignKey(Screening, on_delete=models.CASCADE, related_name="clearances")
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="clearances")
    cleared = models.BooleanField(_("may train"))
    clinician = models.CharField(_("clinician"), max_length=120)
    said_on = models.DateField(_("said on"))
    note = models.CharField(_("conditions or note"), max_length=300, blank=True)
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now_add=True)

    objects = OfClientQuerySet.as_manager()

    class Meta:
        ordering = ["-pk"]
