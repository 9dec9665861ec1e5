"""A plain form that ends in one operation: the page without a script writes exactly what the script would send."""

import datetime as dt
import uuid
from typing import Any

from django import forms
from django.utils import timezone

from accounts.models import Client
from logbook.operations.refused import Refused
from logbook.services.operations import operation_apply


class OperationForm(forms.Form):
    """`op` is the operation's id, made with the page: a double tap on the button is a replay."""

    kind: str
    op = forms.UUIDField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.result: dict[str, Any] | None = None

    def payload(self) -> dict[str, Any]:
        """Return the operation's data from the cleaned values."""
        values = {name: value for name, value in self.cleaned_data.items() if name != "op"}
        return {name: as_json(value) for name, value in values.items()}

    def save(self, client: Client, *, at: dt.datetime | None = None, **more: Any) -> bool:
        """Carry the operation out. False: it was refused, the reasons stand beside the fields."""
        now = timezone.now()
        identity = self.cleaned_data.get("op") or uuid.uuid4()
        operation = {"id": str(identity), "kind": self.kind, "at": (at or now).isoformat()}
        operation["data"] = self.payload() | {name: as_json(value) for name, value in more.items()}
        try:
            self.result = operation_apply(client=client, operation=operation, now=now)
        except Refused as refusal:
            self.refuse(refusal)
            return False
        return True

    def refuse(self, refusal: Refused) -> None:
        """Put each reason beside its field, and what has no field on top."""
        self.refusal = refusal
        for name, messages in (refusal.errors or {"": [refusal.title]}).items():
            for message in messages:
                self.add_error(name if name in self.fields else None, str(message))


def as_json(value: Any) -> Any:
    """Return a cleaned value as it stands in JSON."""
    if isinstance(value, uuid.UUID):
        return str(value)
    if isinstance(value, dt.date | dt.datetime):
        return value.isoformat()
    return value
