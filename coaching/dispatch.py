"""From a committed request to a computed result: through the broker where there is one, else at once, here.

Nothing in this module may break the request that logged a set. The recompute request is in the database already, so
whatever goes wrong here is logged, and the sweep (Celery beat, or `manage.py sweep --every 60`) finds it.
"""

import logging

from django.conf import settings

from coaching import processes
from coaching.broker import ping
from coaching.recompute import run

logger = logging.getLogger(__name__)


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


def enqueue(client_id: int) -> None:
    """Send the task; raises at once when the broker does not answer."""
    from coaching.tasks import recompute_client

    ping(settings.CELERY_BROKER_URL)
    recompute_client.apply_async((client_id,), retry=False, ignore_result=True)


def on_recompute_requested(sender: object, client_id: int, large: bool = False, **kwargs: object) -> None:
    """Receive `logbook.signals.recompute_requested`, which is sent after the commit."""
    dispatch(client_id, large=large)
