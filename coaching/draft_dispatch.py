"""From a queued draft to a worker: through the broker where there is one, else a process of its own.

Nothing here may break the request that asked: the draft is in the database, and the sweep finds what no worker took.
"""

import logging
import os
import subprocess
import sys

from django.conf import settings

from coaching.broker import ping
from programs.services.draft_work import draft_work_off

logger = logging.getLogger(__name__)
# Kept so that an ended process is reaped: the list is looked through whenever another one is begun.
_processes: list[subprocess.Popen[bytes]] = []


def dispatch(run_id: int) -> bool:
    """Hand a draft to a worker; False when it was left to the sweep."""
    try:
        if settings.CELERY_BROKER_URL:
            _enqueue(run_id)
        elif settings.DRAFT_WORKER == "here":
            draft_work_off(run_id)
        else:
            _spawn(run_id)
    except Exception:  # a lost broker, no memory for a process, a fault of ours: the draft waits, and the sweep comes
        logger.exception("Draft %s is left to the sweep", run_id)
        return False
    return True


def _enqueue(run_id: int) -> None:
    from coaching.tasks import draft_solve

    ping(settings.CELERY_BROKER_URL)
    draft_solve.apply_async((run_id,), retry=False, ignore_result=True)


def _spawn(run_id: int) -> None:
    _processes[:] = [one for one in _processes if one.poll() is None]
    command = [sys.executable, str(settings.BASE_DIR / "manage.py"), "solve_draft", str(int(run_id))]
    # In the server's own process group: stopping the server stops its drafts, and the sweep takes them up again.
    _processes.append(
        subprocess.Popen(  # noqa: S603 - our own interpreter and command, and a number
            command, cwd=settings.BASE_DIR, env=os.environ.copy(), stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL
        )
    )


def on_draft_requested(sender: object, run_id: int, **kwargs: object) -> None:
    """Receive `programs.signals.draft_requested`, which is sent after the commit."""
    dispatch(run_id)
