"""A write that a phone asked for, with the first result it got."""

from django.db import models

from accounts.models import Client


class Operation(models.Model):
    """`id` is made on the phone. A replay is answered with `result`; refused operations are not kept."""

    id = models.UUIDField(primary_key=True)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="operations")
    kind = models.CharField(max_length=30)
    result = models.JSONField()
    received_at = models.DateTimeField(auto_now_add=True)
