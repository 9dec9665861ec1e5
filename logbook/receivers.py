"""What this room does when the plan changes."""

import datetime as dt

from logbook.services.recompute import recompute_request


def on_plan_changed(sender: object, client_id: int, since: dt.date, **kwargs: object) -> None:
    """Ask for a recompute from the first changed day, in the transaction that changed the plan."""
    recompute_request(client_id=client_id, since=since, reason="plan")
