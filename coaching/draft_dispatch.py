"""From a queued draft to a worker: through the broker where there is one, else a process of its own.

Nothing here may break the request that asked: the draft is in the database, and the sweep finds what no worker took.
"""

import logging

from django.conf import settings

from coaching import processes
from coaching.broker import ping
from programs.services.draft_work import draft_work_off

logger = logging.getLogger(__name__)


def dispatch(run_id: int) -> bool:
    """Hand a draft to a worker; False when it was left to the sweep."""
    try:
        if settings.CELERY_BROKER_URL:
            _enqueue(run_id)
        elif settings.DRAFT_WORKER == "here":
            draft_work_off(run_id)
        else:
            processes.begin("solve_draft", str(int(run_id)))
    except Exception:  # a lost broker, no memory for a process, a fault of ours: the draft waits, and the sweep comes
        logger.exception("Draft %s is left to the sweep", run_id)
        return False
    return True


def _enqueue(run_id: int) -> None:
    from coaching.tasks import draft_solve

    ping(settings.CELERY_BROKER_URL)
    draft_solve.apply_async((run_id,), retry=False, ignore_result=True)


def on_draft_requested(sender: object, run_id: int, **kwargs: object) -> None:
    """Receive `programs.signals.draft_requested`, which is sent after the commit."""
    dispatch(run_id)
