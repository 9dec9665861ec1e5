"""From a queued table of past training to a worker, as a draft gets there (coaching/draft_dispatch.py)."""

import logging
import uuid

from django.conf import settings

from coaching import processes
from coaching.broker import ping
from logbook.services.past_work import past_work_off

logger = logging.getLogger(__name__)


def dispatch(run_id: uuid.UUID) -> bool:
    """Hand a table to a worker; False when it was left to the sweep."""
    try:
        if settings.CELERY_BROKER_URL:
            _enqueue(run_id)
        elif settings.DRAFT_WORKER == "here":
            past_work_off(run_id)
        else:
            processes.begin("save_past", str(run_id))
    except Exception:  # a lost broker, no memory for a process, a fault of ours: the table waits, and the sweep comes
        logger.exception("Past training %s is left to the sweep", run_id)
        return False
    return True


def _enqueue(run_id: uuid.UUID) -> None:
    from coaching.tasks import past_save

    ping(settings.CELERY_BROKER_URL)
    past_save.apply_async((str(run_id),), retry=False, ignore_result=True)


def on_past_queued(sender: object, run_id: uuid.UUID, **kwargs: object) -> None:
    """Receive `logbook.signals.past_queued`, which is sent after the commit."""
    dispatch(run_id)
