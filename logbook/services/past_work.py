"""Read or save a long table: claim it, then all of it or nothing. May be killed at any line, and called twice."""

import logging
import uuid
from typing import Any

from django.db import models
from django.utils import timezone, translation

from logbook.models import LogImport, PastRun
from logbook.past.columns import BY_KEY, LAYOUTS
from logbook.services.past_plan import past_compare, past_read
from logbook.services.past_run import how_from_json
from logbook.services.past_save import past_import
from logbook.services.past_seen import seen_of, seen_to_json
from logbook.services.past_signs import forget_signs, stop_is_asked, tell_saved
from programs.sheets.errors import FileError, Stopped
from programs.sheets.packed import pack, unpack
from programs.sheets.read import read_table
from programs.sheets.table import Table
from programs.sheets.typed import mend

logger = logging.getLogger(__name__)
State, Act = PastRun.State, PastRun.Act


def past_work_off(run_id: uuid.UUID) -> bool:
    """Claim the run and bring it to an end; False when it is not waiting (another worker has it, or it is done)."""
    claimed = PastRun.objects.filter(pk=run_id, state=State.QUEUED).update(
        state=State.RUNNING, attempt=models.F("attempt") + 1, started_at=timezone.now()
    )
    if not claimed:
        return False
    run = PastRun.objects.select_related("client__user", "client__practice", "by").get(pk=run_id)
    try:
        with translation.override(run.language or None):
            (_read if run.act == Act.READ else _save)(run)
    except Stopped:
        _end(run, state=State.CANCELLED, file=None)
    except FileError as error:
        _end(run, state=State.REFUSED, fault=error.code[:300], fault_params=error.params, file=None)
    except Exception:
        _end(run, state=State.FAILED, fault="past_software", file=None)
        raise
    finally:
        forget_signs(run_id)
    return True


def _read(run: PastRun) -> None:
    """Read the table, and keep what a person should look at. Nothing of the log is changed."""
    _told(run, 0, run.rows)
    table = _table(run)
    plan = past_read(table, run.client, how_from_json(run.how), lambda rows: _told(run, rows, len(table.rows)))
    seen = seen_of(past_compare(plan, run.client))
    packed = pack(table)
    _told(run, len(table.rows), len(table.rows))
    if not _mine(run).filter(cancel_asked=False).update(
        state=State.READ, ended_at=timezone.now(), file=None, typed={}, table=packed, layout=table.layout.key,
        rows=len(table.rows), seen=seen_to_json(seen),
    ):  # fmt: skip
        raise Stopped


def _save(run: PastRun) -> None:
    past_import(
        client=run.client,
        by=run.by,
        table=_table(run),
        how=how_from_json(run.how),
        file_name=run.file_name,
        told=lambda saved, rows: _told(run, saved, rows),
        ended=lambda done: _saved(run, done),
    )


def _table(run: PastRun) -> Table:
    """Return the table: of the file that was uploaded, or as it was read before, with what was mended since."""
    if run.file is not None:
        return read_table(bytes(run.file), LAYOUTS, lambda rows: _told(run, rows, 0))
    table = unpack(run.table, BY_KEY[run.layout])
    typed = run.typed
    mend(table, {(index, place): text for index, place, text in typed.get("cells", [])}, typed.get("names", {}))
    return table


def _told(run: PastRun, done: int, rows: int) -> None:
    """Say how far it is (of how many rows, 0 while a file is unpacked); Stopped when it should go no further."""
    tell_saved(run.pk, done, rows)
    if stop_is_asked(run.pk):
        raise Stopped


def _saved(run: PastRun, done: LogImport) -> None:
    """Close the run in the transaction that saves the rows: either both are there or neither."""
    mine = _mine(run).filter(cancel_asked=False)
    if not mine.update(state=State.DONE, saved=done, table="", typed={}, seen={}, ended_at=timezone.now()):
        raise Stopped


def _end(run: PastRun, **fields: Any) -> None:
    """Keep how it ended, unless the run has been given to another worker or stopped meanwhile."""
    _mine(run).update(ended_at=timezone.now(), **fields)


def _mine(run: PastRun) -> models.QuerySet[PastRun]:
    """The run as long as it is this worker's. Attempts are counted anew when a person asks anew: the moment tells such
    a run from the one that was stopped while its worker was thought lost."""
    return PastRun.objects.filter(pk=run.pk, attempt=run.attempt, queued_at=run.queued_at, state=State.RUNNING)
