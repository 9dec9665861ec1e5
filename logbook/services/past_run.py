"""The life of a long table of past training: asked for, claimed by a worker, stopped, or lost and found again. The
worker reads it first, then it waits for the person, then the worker saves it."""

import dataclasses
import datetime as dt
import hashlib
import uuid
from collections.abc import Mapping
from typing import Any

from django.db import models, transaction
from django.utils import timezone
from django.utils.translation import get_language

from accounts.models import Client, User
from logbook.models import PastRun
from logbook.past.reading import HowToRead
from logbook.services.past_signs import ask_stop, forget_signs, saved_so_far
from logbook.signals import past_queued
from programs.services import run_stop
from programs.sheets.packed import pack
from programs.sheets.read import rows_at_most
from programs.sheets.table import Table

State, Act = PastRun.State, PastRun.Act
# Chosen. A table of more rows than this takes over a second to read and save; a shorter one is saved at once.
LONG_ROWS = 1000
# A worker tells how far it is several times a second, but not while it reads (some seconds) or waits for the client's
# lock (another import of the same client).
LOST_AFTER_S = 90
WAITING_S = 30
ATTEMPTS = 3
# What was not saved can be looked at again for so long.
KEPT = dt.timedelta(days=1)


def is_long(table: Table) -> bool:
    return len(table.rows) > LONG_ROWS


def may_be_long(data: bytes) -> bool:
    """Say, without reading it, whether an uploaded file is one for a worker."""
    return rows_at_most(data) > LONG_ROWS


def past_look(*, client: Client, by: User, data: bytes, how: HowToRead, file_name: str) -> PastRun:
    """Keep an uploaded file until a worker has read it. The same file a second time (a double press) is the run that is
    on its way already."""
    same: dict[str, Any] = {"client": client, "act": Act.READ, "digest": hashlib.sha256(data).hexdigest()}
    if standing := PastRun.objects.unfinished().filter(**same).first():
        return standing
    run = PastRun(**same, by=by, file=data, file_name=file_name[:120])
    with transaction.atomic():
        _queue(run, Act.READ, how)
        run.save(force_insert=True)
    return run


def past_again(
    *,
    run: PastRun,
    by: User,
    how: HowToRead,
    cells: Mapping[tuple[int, int], str],
    names: Mapping[str, str],
    save: bool,
) -> PastRun:
    """Read a table again with what was mended in it, or save it, in the name of who asks for that (`by`); a run that is
    at work, or has no table any more, stays as it is."""
    with transaction.atomic():
        run = PastRun.objects.select_for_update().get(pk=run.pk)
        if run.unfinished or not run.table:
            return run
        run.by = by
        save = save and run.state == State.READ  # what nobody has looked at is not saved
        # What was typed is put into the table by the worker: to unpack it takes a second, too. What no worker came to
        # put in stays beside what was typed since.
        before = run.typed
        cells = {(index, place): text for index, place, text in before.get("cells", [])} | dict(cells)
        names = before.get("names", {}) | dict(names)
        run.typed = {"cells": [[*place, text] for place, text in cells.items()], "names": names}
        _queue(run, Act.SAVE if save else Act.READ, how)
        run.save()
    return run


def _queue(run: PastRun, act: str, how: HowToRead) -> None:
    """Let a worker begin; the language is that of who asked, for they read what is found."""
    run.act, run.how, run.state, run.attempt, run.cancel_asked = act, how_to_json(how), State.QUEUED, 0, False
    run.queued_at, run.started_at, run.ended_at = timezone.now(), None, None
    run.fault, run.fault_params, run.language = "", {}, get_language() or ""
    forget_signs(run.pk)
    _call_worker(run.pk)


def past_start(*, client: Client, by: User, table: Table, how: HowToRead, file_name: str) -> PastRun:
    """Keep the table and ask for a worker once it is committed. The same table a second time (a double press, a page
    that is sent again) is the run that is on its way already; were it begun twice, the second would find nothing new.

    Without the client's lock, which another import may hold for seconds.
    """
    same: dict[str, Any] = {"client": client, "layout": table.layout.key, "table": pack(table)}
    if standing := PastRun.objects.unfinished().filter(**same).first():
        return standing
    run = PastRun(**same, by=by, file_name=file_name[:120], rows=len(table.rows))
    with transaction.atomic():
        _queue(run, Act.SAVE, how)
        run.save(force_insert=True)
    return run


def how_to_json(how: HowToRead) -> dict[str, Any]:
    return {**dataclasses.asdict(how), "today": how.today.isoformat()}


def how_from_json(told: dict[str, Any]) -> HowToRead:
    return HowToRead(**{**told, "today": dt.date.fromisoformat(told["today"])})


def past_stop(*, run: PastRun) -> PastRun:
    """Stop a run: at once when no worker has it; else the worker stops before it has saved, or has saved already."""
    # Said first: with SQLite the rest has to wait until the worker heard it.
    ask_stop(run.pk)
    with transaction.atomic():
        run = PastRun.objects.select_for_update().get(pk=run.pk)
        now = timezone.now()
        if run.state == State.READ:
            _discard(run, now)
        else:
            run_stop.stop(run, lost=is_lost(run, now), now=now)
    return run


def _discard(run: PastRun, now: dt.datetime) -> None:
    """Keep nothing of a table that was looked at and not wanted."""
    run.state, run.ended_at, run.file, run.table, run.seen, run.typed = State.CANCELLED, now, None, "", {}, {}
    run.save()


def is_lost(run: PastRun, now: dt.datetime) -> bool:
    """Say whether the run's worker has been silent for too long."""
    if run.state != State.RUNNING:
        return False
    sign = saved_so_far(run.pk)
    return run_stop.is_silent(sign.at if sign else run.started_at, now, LOST_AFTER_S)


def past_sweep(now: dt.datetime) -> int:
    """Send on what no worker has taken and what one left lying, let go of tables that were not saved; return how many
    were sent on or given up."""
    old = PastRun.objects.filter(ended_at__lt=now - KEPT)
    old.filter(state=State.READ).update(state=State.CANCELLED)
    old.exclude(table="", file=None).update(table="", file=None, seen={}, typed={})
    long_begun = models.Q(state=State.RUNNING) & run_stop.silent("started_at", now, LOST_AFTER_S)
    forgotten = models.Q(state=State.QUEUED) & run_stop.silent("queued_at", now, WAITING_S)
    due = PastRun.objects.filter(long_begun | forgotten).order_by("queued_at").values_list("pk", flat=True)
    return sum(_send_on(pk, now) for pk in list(due))


@transaction.atomic
def _send_on(pk: uuid.UUID, now: dt.datetime) -> bool:
    run = PastRun.objects.select_for_update(skip_locked=True).filter(pk=pk).first()
    if run is None or not run.unfinished or (run.state == State.RUNNING and not is_lost(run, now)):
        return False
    if run.cancel_asked:
        run.state, run.ended_at = State.CANCELLED, now
    elif run.attempt >= ATTEMPTS:
        run.state, run.ended_at = State.FAILED, now
        run.fault = "past_often"
    else:
        run.state, run.queued_at, run.started_at = State.QUEUED, now, None
        forget_signs(pk)
        _call_worker(pk)
    run.save(update_fields=["state", "queued_at", "started_at", "ended_at", "fault"])
    return True


def _call_worker(pk: uuid.UUID) -> None:
    transaction.on_commit(lambda: past_queued.send(sender=PastRun, run_id=pk))
