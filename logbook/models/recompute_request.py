"""The outbox between the log and the worker."""

from django.db import models

from accounts.models import Client


class RecomputeRequest(models.Model):
    """Written in the transaction of the log itself and deleted in that of the result: no crash can part them."""

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="recompute_requests")
    since = models.DateField(help_text="The earliest day (client's calendar) whose log changed.")
    reason = models.CharField(max_length=40)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        indexes = [models.Index(fields=["client", "created_at"])]
