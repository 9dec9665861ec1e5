"""Carry out many operations, each on its own."""

import datetime as dt
import logging
from typing import Any

from django.db import transaction

from accounts.models import Client
from logbook.operations.refused import Refused
from logbook.services.operations import operation_outcome
from logbook.services.recompute import announce_request

logger = logging.getLogger(__name__)

MOST_OPERATIONS = 200


def operations_apply(*, client: Client, operations: list[Any], now: dt.datetime) -> list[dict[str, Any]]:
    """Carry out each operation in its own transaction; return one answer each, in order.

    An answer has `status`: "saved"; "replayed"; "refused" with `refusal`, a Refused; "retry" after a fault of ours,
    so that the phone keeps the operation. Listeners are told once, at the end: a process that dies before that
    leaves the recompute requests in the database, where the sweep finds them.
    """
    answers: list[dict[str, Any]] = []
    stumbled = False
    for operation in operations:
        answer: dict[str, Any] = {"id": operation.get("id") if isinstance(operation, dict) else None}
        try:
            outcome = operation_outcome(client=client, operation=operation, now=now, announce=False)
            answer |= {"status": outcome.status, "result": outcome.result}
        except Refused as refusal:
            # "There is no such session" may only mean that its beginning, earlier in this batch, has to come again.
            lost = stumbled and refusal.status == 404
            answer |= {"status": "retry"} if lost else {"status": "refused", "refusal": refusal}
        except Exception:
            # One operation that trips over a fault of ours must not take the others with it.
            logger.exception("Operation %s was not carried out", answer["id"])
            answer["status"], stumbled = "retry", True
        answers.append(answer)
    if any(answer["status"] == "saved" for answer in answers):
        transaction.on_commit(lambda: announce_request(client_id=client.pk))
    return answers
