"""Thin Celery wrappers: a task gets an id, and the duty lies in coaching/recompute and coaching/sweep."""

from celery import shared_task

from coaching import sweep
from coaching.recompute import run


@shared_task(name="coaching.tasks.recompute_client")
def recompute_client(client_id: int) -> None:
    """Work off what waits for one client; nothing waiting is not an error."""
    run.work_off(client_id)


@shared_task(name="coaching.tasks.recompute_sweep")
def recompute_sweep() -> int:
    """Find clients whose requests no task took, or whose rows are of an earlier day; return how many were sent on."""
    return sweep.sweep()
