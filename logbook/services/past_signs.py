"""What a page and the worker that saves a long table tell each other: how far it is, and that it should stop.

The worker writes in one transaction, and what it wrote there nobody else sees before its end; with SQLite nobody else
can write meanwhile either. So both talk beside the database. A sign that is lost, or that a server which is away can
neither take nor give, costs a number on a page: whether a table was saved or stopped is in the database
(services/past_run.py).
"""

import datetime as dt
import logging
import uuid
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.core.cache import caches
from django.utils import timezone

logger = logging.getLogger(__name__)
KEPT_S = 3600


@dataclass(frozen=True, slots=True)
class Sign:
    """`saved` of `rows` rows are written; `at` is when the worker said so."""

    saved: int
    rows: int
    at: dt.datetime


def tell_saved(run_id: uuid.UUID, saved: int, rows: int) -> None:
    _try(lambda cache: cache.set(f"past-{run_id}", (saved, rows, timezone.now()), KEPT_S))


def saved_so_far(run_id: uuid.UUID) -> Sign | None:
    told = _try(lambda cache: cache.get(f"past-{run_id}"))
    return Sign(*told) if told else None


def ask_stop(run_id: uuid.UUID) -> None:
    _try(lambda cache: cache.set(f"past-{run_id}-stop", True, KEPT_S))


def stop_is_asked(run_id: uuid.UUID) -> bool:
    return bool(_try(lambda cache: cache.get(f"past-{run_id}-stop")))


def forget_signs(run_id: uuid.UUID) -> None:
    _try(lambda cache: cache.delete_many([f"past-{run_id}", f"past-{run_id}-stop"]))


def _try(use: Callable[[Any], Any]) -> Any:
    """Return what the cache answers, None when it does not."""
    try:
        return use(caches["signs"])
    except Exception:  # a server that is away, a full disk: whatever kind of cache it is, the table goes on
        logger.warning("A sign about past training was lost", exc_info=True)
        return None
