"""Which queues a worker listens to: workers say so every few seconds, and nobody has to ask them and wait."""

import logging
import time

from celery.signals import heartbeat_sent, worker_ready
from django.conf import settings
from django.core.cache import cache

logger = logging.getLogger(__name__)
QUEUES = tuple(queue.name for queue in settings.CELERY_TASK_QUEUES)
# A worker is asked for a heartbeat every two seconds; one that has said nothing for this long is gone.
SILENT_S = 30
SAY_EVERY_S = 5


class Listener:
    """This process's own queues, if it is a worker."""

    def __init__(self) -> None:
        self.queues: list[str] = []
        self.said = 0.0

    def on_ready(self, sender: object, **kwargs: object) -> None:
        """Receive `worker_ready` with the worker's consumer."""
        self.queues = [queue.name for queue in sender.task_consumer.queues]  # type: ignore[attr-defined]
        self.on_heartbeat()

    def on_heartbeat(self, sender: object = None, **kwargs: object) -> None:
        """Receive `heartbeat_sent`. A worker must not end because its word could not be kept."""
        if not self.queues or time.monotonic() - self.said < SAY_EVERY_S:
            return
        self.said = time.monotonic()
        try:
            say(self.queues)
        except Exception:
            logger.warning("Could not say which queues are listened to", exc_info=True)


def say(queues: list[str]) -> None:
    """Note that a worker listens to these queues now."""
    cache.set_many({_key(name): True for name in queues}, SILENT_S)


def listened_to() -> dict[str, bool]:
    """Say of each queue whether a worker listens to it; the cache's own error when that cannot be asked."""
    found = cache.get_many([_key(name) for name in QUEUES])
    return {name: _key(name) in found for name in QUEUES}


def connect() -> None:
    """Let a worker say what it listens to. Before it starts: Celery asks only then whether anybody wants to know."""
    worker_ready.connect(listener.on_ready, dispatch_uid="coaching.listening", weak=False)
    heartbeat_sent.connect(listener.on_heartbeat, dispatch_uid="coaching.listening", weak=False)


def _key(queue: str) -> str:
    return f"listening:{queue}"


listener = Listener()
