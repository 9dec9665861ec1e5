"""What stopping means for a run that a worker claims: a draft here, a long table of past training in the logbook."""

import datetime as dt
from typing import Any


def stop(run: Any, *, lost: bool, now: dt.datetime) -> None:
    """Cancel a run (locked by the caller) that no worker has, or ask its worker to stop. An ended run stays."""
    if run.state == run.State.QUEUED or (run.state == run.State.RUNNING and lost):
        # The attempt is raised so that a worker that was thought lost can write no more.
        run.state, run.ended_at, run.attempt = run.State.CANCELLED, now, run.attempt + 1
        run.save(update_fields=["state", "ended_at", "attempt"])
    elif run.state == run.State.RUNNING:
        run.cancel_asked = True
        run.save(update_fields=["cancel_asked"])
