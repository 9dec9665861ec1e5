"""Save a long table: claim it, read, save all of it or nothing. May be killed at any line, and called twice."""

import logging
import uuid
from typing import Any

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext as _

from logbook.models import LogImport, PastRun
from logbook.past.columns import BY_KEY
from logbook.services.past_run import how_from_json
from logbook.services.past_save import past_import
from logbook.services.past_signs import forget_signs, stop_is_asked, tell_saved
from programs.sheets.errors import FileError
from programs.sheets.packed import unpack

logger = logging.getLogger(__name__)
State = PastRun.State


class Stopped(Exception):
    """Someone wants it no more, or it was given to another worker: what was written is taken back."""


def past_work_off(run_id: uuid.UUID) -> bool:
    """Claim the run and bring it to an end; False when it is not waiting (another worker has it, or it is done)."""
    claimed = PastRun.objects.filter(pk=run_id, state=State.QUEUED).update(
        state=State.RUNNING, attempt=models.F("attempt") + 1, started_at=timezone.now()
    )
    if not claimed:
        return False
    run = PastRun.objects.select_related("client__user", "client__practice", "by").get(pk=run_id)
    try:
        past_import(
            client=run.client,
            by=run.by,
            table=unpack(run.table, BY_KEY[run.layout]),
            how=how_from_json(run.how),
            file_name=run.file_name,
            told=lambda saved, rows: _told(run, saved, rows),
            ended=lambda done: _saved(run, done),
        )
    except Stopped:
        _end(run, state=State.CANCELLED)
    except FileError as error:
        _end(run, state=State.REFUSED, fault=str(error)[:300])
    except Exception:
        _end(run, state=State.FAILED, fault=_("A fault in the software. Nothing was saved."))
        raise
    finally:
        forget_signs(run_id)
    return True


def _told(run: PastRun, saved: int, rows: int) -> None:
    """Say how far it is; Stopped when it should go no further."""
    tell_saved(run.pk, saved, rows)
    if stop_is_asked(run.pk):
        raise Stopped


def _saved(run: PastRun, done: LogImport) -> None:
    """Close the run in the transaction that saves the rows: either both are there or neither."""
    mine = PastRun.objects.filter(pk=run.pk, attempt=run.attempt, state=State.RUNNING, cancel_asked=False)
    if not mine.update(state=State.DONE, saved=done, table="", ended_at=timezone.now()):
        raise Stopped


def _end(run: PastRun, **fields: Any) -> None:
    """Keep how it ended, unless the run has been given to another worker or stopped meanwhile."""
    mine = PastRun.objects.filter(pk=run.pk, attempt=run.attempt, state=State.RUNNING)
    mine.update(ended_at=timezone.now(), **fields)
