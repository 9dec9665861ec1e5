"""Ask for the rows that follow from the log to be computed again."""

import datetime as dt
from collections.abc import Mapping

from django.db import transaction

from logbook.models import RecomputeRequest
from logbook.signals import recompute_requested, recomputes_requested


def recompute_request(
    *, client_id: int, since: dt.date, reason: str, announce: bool = True, large: bool = False
) -> None:
    """Write a request in the transaction that is open, and tell the listeners once it is committed.

    `announce` False leaves the telling to the caller, who has more to write for the same client. `large`: years of
    weeks follow, which nobody should have to wait for.
    """
    RecomputeRequest.objects.create(client_id=client_id, since=since, reason=reason[:40])
    if announce:
        transaction.on_commit(lambda: announce_request(client_id=client_id, large=large))


def announce_request(*, client_id: int, large: bool = False) -> None:
    """Tell whoever listens that a request of this client waits."""
    recompute_requested.send(sender=RecomputeRequest, client_id=client_id, large=large)


def recompute_requests(*, since: Mapping[int, dt.date], reason: str) -> None:
    """Write a request for each client ({client id: date}), and tell the listeners of all of them at once."""
    RecomputeRequest.objects.bulk_create(
        RecomputeRequest(client_id=client_id, since=day, reason=reason[:40]) for client_id, day in since.items()
    )
    clients = list(since)
    transaction.on_commit(lambda: recomputes_requested.send(sender=RecomputeRequest, client_ids=clients))
