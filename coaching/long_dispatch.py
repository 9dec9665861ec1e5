"""From queued work that takes long (a draft, a long table of past training) to a worker: through the broker where there
is one, else a process of its own.

Nothing here may break the request that asked: the run is in the database, and the sweep finds what no worker took.
"""

import logging
import uuid
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.conf import settings

from coaching import processes
from coaching.broker import ping
from logbook.services.past_work import past_work_off
from programs.services.draft_work import draft_work_off

logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class LongWork:
    """`task` is the name in coaching/tasks.py and `command` the management command that do the same as `work_off`;
    `sent` makes of a run's id what a message can carry."""

    name: str
    task: str
    command: str
    work_off: Callable[[Any], Any]
    sent: Callable[[Any], Any]

    def dispatch(self, run_id: int | uuid.UUID) -> bool:
        """Hand a run to a worker; False when it was left to the sweep."""
        try:
            if settings.CELERY_BROKER_URL:
                self._enqueue(run_id)
            elif settings.DRAFT_WORKER == "here":
                self.work_off(run_id)
            else:
                processes.begin(self.command, str(run_id))
        except Exception:  # a lost broker, no memory for a process, a fault of ours: the run waits, and the sweep comes
            logger.exception("%s %s is left to the sweep", self.name, run_id)
            return False
        return True

    def _enqueue(self, run_id: int | uuid.UUID) -> None:
        from coaching import tasks

        ping(settings.CELERY_BROKER_URL)
        getattr(tasks, self.task).apply_async((self.sent(run_id),), retry=False, ignore_result=True)


DRAFT = LongWork("Draft", "draft_solve", "solve_draft", draft_work_off, int)
PAST = LongWork("Past training", "past_save", "save_past", past_work_off, str)


def on_draft_requested(sender: object, run_id: int, **kwargs: object) -> None:
    """Receive `programs.signals.draft_requested`, which is sent after the commit."""
    DRAFT.dispatch(run_id)


def on_past_queued(sender: object, run_id: uuid.UUID, **kwargs: object) -> None:
    """Receive `logbook.signals.past_queued`, which is sent after the commit."""
    PAST.dispatch(run_id)
