"""A draft's life: asked for, claimed by a worker, worked off, stopped, or lost and found again."""

import datetime as dt

from django.db import models, transaction
from django.utils import timezone

from accounts.models import Client, Practice, User
from programs.models import DraftRun
from programs.services import run_stop
from programs.services.draft_ask import Ask, ask_to_json
from programs.signals import draft_requested

State = DraftRun.State
# Chosen. A worker says that it lives twice a second while the solver runs; the longest silence (pairs of a large week
# being exchanged) is a few seconds.
LOST_AFTER_S = 30
# How long a draft may wait before the sweep thinks that its message was lost. Sent twice, it is worked off once.
WAITING_S = 30
# After this long a waiting draft's page says whether it is only others' turn, or nobody is there.
TURN_S = 15
ATTEMPTS = 3
# A draft keeps a processor busy until its clock ends.
AT_ONCE = 3


class TooMany(Exception):
    """The practice has as many drafts at work as may be."""


@transaction.atomic
def draft_start(*, practice: Practice, author: User, client: Client | None, name: str, ask: Ask) -> DraftRun:
    """Keep the request and ask for a worker once it is committed; TooMany when enough are at work."""
    Practice.objects.select_for_update().get(pk=practice.pk)
    if DraftRun.objects.unfinished().filter(practice=practice).count() >= AT_ONCE:
        raise TooMany
    run = DraftRun.objects.create(
        practice=practice, author=author, client=client, name=name, ask=ask_to_json(ask), queued_at=timezone.now()
    )
    _call_worker(run.pk)
    return run


@transaction.atomic
def draft_stop(*, run: DraftRun) -> DraftRun:
    """Stop a draft: at once when no worker has it, else the worker stops within a second and keeps the best so far."""
    run = DraftRun.objects.select_for_update().get(pk=run.pk)
    now = timezone.now()
    run_stop.stop(run, lost=is_lost(run, now), now=now)
    return run


def is_lost(run: DraftRun, now: dt.datetime) -> bool:
    """Say whether the run's worker has been silent for too long."""
    silent_since = run.alive_at or run.started_at
    return run.state == State.RUNNING and run_stop.is_silent(silent_since, now, LOST_AFTER_S)


def waits_for(run: DraftRun, now: dt.datetime) -> str:
    """Say what a draft waits for: "" (nothing, or not long enough to wonder), "turn" while a worker solves others, or
    "worker" when none shows a sign of life."""
    # Not since it was queued: the sweep queues it again and again.
    since = run.alive_at or run.created_at
    if run.state != State.QUEUED or now - since <= _seconds(TURN_S):
        return ""
    alive = DraftRun.objects.filter(alive_at__gte=now - _seconds(LOST_AFTER_S)).exclude(state=State.QUEUED)
    return "turn" if alive.exists() else "worker"


def draft_sweep(now: dt.datetime) -> int:
    """Send on what no worker has taken, and what a worker left lying; a draft that was tried too often has failed.

    Return how many were sent on or given up.
    """
    lost = models.Q(state=State.RUNNING) & (
        run_stop.silent("alive_at", now, LOST_AFTER_S)
        | models.Q(alive_at=None) & run_stop.silent("started_at", now, LOST_AFTER_S)
    )
    forgotten = models.Q(state=State.QUEUED) & run_stop.silent("queued_at", now, WAITING_S)
    due = list(DraftRun.objects.filter(lost | forgotten).order_by("queued_at").values_list("pk", flat=True))
    for pk in due:
        _send_on(pk, now)
    return len(due)


@transaction.atomic
def _send_on(pk: int, now: dt.datetime) -> None:
    run = DraftRun.objects.select_for_update().get(pk=pk)
    if run.state == State.RUNNING and not is_lost(run, now):
        return
    if not run.unfinished:
        return
    if run.cancel_asked:
        run.state, run.ended_at = State.CANCELLED, now
    elif run.attempt >= ATTEMPTS:
        run.state, run.ended_at = State.FAILED, now
        run.fault = "often"
    else:
        run.state, run.queued_at, run.started_at, run.progress = State.QUEUED, now, None, {}
        _call_worker(pk)
    run.save(update_fields=["state", "queued_at", "started_at", "progress", "ended_at", "fault"])


def _call_worker(pk: int) -> None:
    transaction.on_commit(lambda: draft_requested.send(sender=DraftRun, run_id=pk))


def _seconds(amount: float) -> dt.timedelta:
    return dt.timedelta(seconds=amount)
