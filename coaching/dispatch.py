"""From a committed request to a computed result: through the broker where there is one, else at once, here.

Nothing in this module may break the request that logged a set. The recompute request is in the database already, so
whatever goes wrong here is logged, and the sweep (Celery beat, or `manage.py sweep --every 60`) finds it.
"""

import logging
from collections.abc import Sequence

from django.conf import settings

from coaching import processes
from coaching.broker import ping
from coaching.recompute import run

logger = logging.getLogger(__name__)
# Chosen. Without a broker the page that asked waits for so many recomputes; more are done by another process.
FEW = 3


def dispatch(client_id: int, *, large: bool = False) -> bool:
    """Queue the recompute of a client, or run it when there is no broker (in another process when it is `large`); False
    when it was left to the sweep."""
    try:
        if settings.CELERY_BROKER_URL:
            enqueue(client_id)
        elif large and settings.DRAFT_WORKER != "here":
            processes.begin("recompute", "--pending")
        else:
            run.work_off(client_id)
    except Exception:  # a lost broker, a lock that timed out, a fault of ours: the set is saved, and the sweep comes
        logger.exception("Recompute of client %s is left to the sweep", client_id)
        return False
    return True


def dispatch_many(client_ids: Sequence[int]) -> bool:
    """The same for clients whose requests were written together: one question to the broker, or one process."""
    if not settings.CELERY_BROKER_URL and (len(client_ids) <= FEW or settings.DRAFT_WORKER == "here"):
        done = [dispatch(client_id) for client_id in client_ids]
        return all(done)
    try:
        if settings.CELERY_BROKER_URL:
            enqueue(*client_ids)
        else:
            processes.begin("recompute", "--pending")
    except Exception:  # as above
        logger.exception("Recomputes of %s clients are left to the sweep", len(client_ids))
        return False
    return True


def enqueue(*client_ids: int) -> None:
    """Send the tasks; raises at once when the broker does not answer."""
    from coaching.tasks import recompute_client

    ping(settings.CELERY_BROKER_URL)
    for client_id in client_ids:
        recompute_client.apply_async((client_id,), retry=False, ignore_result=True)


def on_recompute_requested(sender: object, client_id: int, large: bool = False, **kwargs: object) -> None:
    """Receive `logbook.signals.recompute_requested`, which is sent after the commit."""
    dispatch(client_id, large=large)


def on_recomputes_requested(sender: object, client_ids: Sequence[int], **kwargs: object) -> None:
    """Receive `logbook.signals.recomputes_requested`, which is sent after the commit."""
    dispatch_many(client_ids)
