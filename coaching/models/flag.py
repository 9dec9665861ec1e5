"""What the numbers show, and what the coach is asked. Derived; ids are made from their content, so that a rebuild gives
the same rows and a decision finds its prompt again."""

from django.db import models

from accounts.models import Client
from programs.models.assignment import OfClientQuerySet


class FlagRow(models.Model):
    """One flag of one week, as periodization.flags.Flag describes it."""

    id = models.UUIDField(primary_key=True)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="flags")
    week = models.DateField()
    rule_id = models.CharField(max_length=60)
    rule_version = models.PositiveSmallIntegerField()
    severity = models.CharField(max_length=10)
    subject_kind = models.CharField(max_length=10)
    subject = models.CharField(max_length=80)
    opened_on = models.DateField()
    code = models.CharField(max_length=60)
    params = models.JSONField()
    clears_code = models.CharField(max_length=60)
    clears_params = models.JSONField()
    # {"evidence": [ids], "values": {...}, "thresholds": {...}}
    inputs = models.JSONField()

    objects = OfClientQuerySet.as_manager()

    class Meta:
        ordering = ["-week", "rule_id", "subject"]
        indexes = [models.Index(fields=["client", "week"])]


class Prompt(models.Model):
    """A question to the coach with the change it would make to the plan."""

    id = models.UUIDField(primary_key=True)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="prompts")
    week = models.DateField()
    # The last session that it would change: after that day there is nothing left to ask.
    last_date = models.DateField()
    kind = models.CharField(max_length=20)
    rule_id = models.CharField(max_length=60)
    rule_version = models.PositiveSmallIntegerField()
    reasons = models.JSONField()  # [{"code", "params"}]
    proposal = models.JSONField()
    inputs = models.JSONField()

    objects = OfClientQuerySet.as_manager()

    class Meta:
        ordering = ["-week", "kind"]
        indexes = [models.Index(fields=["client", "week"])]
