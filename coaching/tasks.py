"""Thin Celery wrappers: a task gets an id, and the duty lies elsewhere (coaching/recompute, coaching/sweep,
programs/services/draft_work, logbook/services/past_work)."""

import uuid

from celery import shared_task

from coaching import sweep
from coaching.letters.send import send_due
from coaching.recompute import run
from logbook.services.past_work import past_work_off
from programs.services.draft_bounds import MOST_SECONDS
from programs.services.draft_work import draft_work_off


@shared_task(name="coaching.tasks.recompute_client")
def recompute_client(client_id: int) -> None:
    """Work off what waits for one client; nothing waiting is not an error."""
    run.work_off(client_id)


@shared_task(name="coaching.tasks.recompute_sweep")
def recompute_sweep() -> int:
    """Find clients whose requests no task took, or whose rows are of an earlier day, and drafts and tables of past
    training that were lost; return how many were sent on."""
    return sweep.sweep()


@shared_task(name="coaching.tasks.weekly_letters")
def weekly_letters() -> int:
    """Send the weekly letters that are due; return how many went."""
    return send_due()


# The clash of an impossible request is looked for after the clock, a test at a time; a worker that takes longer than
# this has lost its way. A message that comes twice is worked off once (the run is claimed).
@shared_task(name="coaching.tasks.draft_solve", time_limit=4 * MOST_SECONDS)
def draft_solve(run_id: int) -> None:
    """Solve a draft that waits; one that does not wait any more is not an error."""
    draft_work_off(run_id)


# Twenty thousand rows take some seconds; with a worker that lost its way the sweep waits no longer than this.
@shared_task(name="coaching.tasks.past_save", time_limit=300)
def past_save(run_id: str) -> None:
    """Save a long table of past training that waits; one that does not wait any more is not an error."""
    past_work_off(uuid.UUID(run_id))
