"""What this room does when the plan changes."""

import datetime as dt
from collections.abc import Mapping

from logbook.services.recompute import recompute_request, recompute_requests


def on_plan_changed(sender: object, client_id: int, since: dt.date, **kwargs: object) -> None:
    """Ask for a recompute from the first changed day, in the transaction that changed the plan."""
    recompute_request(client_id=client_id, since=since, reason="plan")


def on_plans_changed(sender: object, since: Mapping[int, dt.date], **kwargs: object) -> None:
    """The same for many clients, each from a day of their own."""
    recompute_requests(since=since, reason="plan")
