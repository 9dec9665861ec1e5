"""What stopping means for a run that a worker claims (a draft here, a long table of past training in the logbook), and
when nobody has been heard of for too long."""

import datetime as dt
from typing import Any

from django.db.models import Q


def is_silent(heard: dt.datetime | None, now: dt.datetime, seconds: float) -> bool:
    """Say whether the last sign of life is too long ago. One from further ahead is of a clock that was put back since:
    it would hold everybody off until the clock is there again."""
    return heard is None or abs(now - heard) > dt.timedelta(seconds=seconds)


def silent(field: str, now: dt.datetime, seconds: float) -> Q:
    """Match rows whose moment `field` is so long ago, or ahead because a clock was put back."""
    limit = dt.timedelta(seconds=seconds)
    return Q(**{f"{field}__lt": now - limit}) | Q(**{f"{field}__gt": now + limit})


def stop(run: Any, *, lost: bool, now: dt.datetime) -> None:
    """Cancel a run (locked by the caller) that no worker has, or ask its worker to stop. An ended run stays."""
    if run.state == run.State.QUEUED or (run.state == run.State.RUNNING and lost):
        # The attempt is raised so that a worker that was thought lost can write no more.
        run.state, run.ended_at, run.attempt = run.State.CANCELLED, now, run.attempt + 1
        run.save(update_fields=["state", "ended_at", "attempt"])
    elif run.state == run.State.RUNNING:
        run.cancel_asked = True
        run.save(update_fields=["cancel_asked"])
