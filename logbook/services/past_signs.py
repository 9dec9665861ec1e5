"""What a page and the worker that saves a long table tell each other: how far it is, and that it should stop.

The worker writes in one transaction, and what it wrote there nobody else sees before its end; with SQLite nobody else
can write meanwhile either. So both talk beside the database. A sign that is lost costs a number on a page: whether a
table was saved or stopped is in the database (services/past_run.py).
"""

import datetime as dt
import uuid
from dataclasses import dataclass

from django.core.cache import caches
from django.utils import timezone

KEPT_S = 3600


@dataclass(frozen=True, slots=True)
class Sign:
    """`saved` of `rows` rows are written; `at` is when the worker said so."""

    saved: int
    rows: int
    at: dt.datetime


def tell_saved(run_id: uuid.UUID, saved: int, rows: int) -> None:
    caches["signs"].set(f"past-{run_id}", (saved, rows, timezone.now()), KEPT_S)


def saved_so_far(run_id: uuid.UUID) -> Sign | None:
    told = caches["signs"].get(f"past-{run_id}")
    return Sign(*told) if told else None


def ask_stop(run_id: uuid.UUID) -> None:
    caches["signs"].set(f"past-{run_id}-stop", True, KEPT_S)


def stop_is_asked(run_id: uuid.UUID) -> bool:
    return bool(caches["signs"].get(f"past-{run_id}-stop"))


def forget_signs(run_id: uuid.UUID) -> None:
    caches["signs"].delete_many([f"past-{run_id}", f"past-{run_id}-stop"])
