"""Save past training that was looked at: all of it in one transaction, and one request to compute what follows."""

import datetime as dt
import logging
import uuid
from collections.abc import Callable, Iterable
from typing import Any

from django.db import IntegrityError, models, transaction
from django.db.models import Max
from django.utils import timezone

from accounts.models import Client, User
from logbook.models import BodyMass, CheckIn, LogImport, Session, SetLog
from logbook.past.columns import SETS
from logbook.past.reading import HowToRead
from logbook.past.set_lines import SessionKey, SetLine, SetLines
from logbook.services.past_logged import past_id, past_session_id
from logbook.services.past_plan import PastPlan, past_compare, past_read
from logbook.services.recompute import recompute_request
from programs.sheets.errors import FileError
from programs.sheets.table import Table

logger = logging.getLogger(__name__)
# The reason of the recompute request: every week from the first day on may differ (coaching/recompute/calendar.py).
REASON = "past"
AT_ONCE = 500
Told = Callable[[int, int], None]


def past_import(
    *, client: Client, by: User | None, table: Table, how: HowToRead, file_name: str,
    told: Told = lambda saved, rows: None, ended: Callable[[LogImport], None] = lambda done: None,
) -> LogImport:  # fmt: skip
    """Save what is new in the table; FileError, with nothing saved, when not everything is right.

    The table is read before, and compared with the log behind the client's lock: of two imports of one file the second
    finds nothing new. `told` hears now and then how many rows of how many are saved, `ended` that all are, just before
    the commit; an exception from either takes all of it back.
    """
    told(0, len(table.rows))
    plan = past_read(table, client, how, lambda rows: told(0, len(table.rows)))
    told(0, len(table.rows))
    try:
        with transaction.atomic():
            # NO KEY: a phone that logs a set of this client (and so refers to the row) need not wait for it.
            Client.objects.select_for_update(no_key=True).get(pk=client.pk)
            plan = past_compare(plan, client)
            if not plan.is_right:
                raise _changed()
            done = _save(client, by, plan, file_name, told)
            recompute_request(client_id=client.pk, since=plan.first_day, reason=REASON, large=True)
            ended(done)
    except IntegrityError as error:
        # The phone, which did not wait, wrote the same day after the comparison.
        logger.warning("Past training of client %s met what was logged meanwhile", client.pk, exc_info=True)
        raise _changed() from error
    return done


def _changed() -> FileError:
    return FileError("past_changed")


def _save(client: Client, by: User | None, plan: PastPlan, file_name: str, told: Told) -> LogImport:
    done = LogImport.objects.create(
        client=client,
        by=by,
        at=timezone.now(),
        kind=LogImport.Kind.SETS if plan.table.layout is SETS else LogImport.Kind.DAYS,
        file_name=file_name[:120],
        first_day=plan.first_day,
        last_day=plan.last_day,
        sets=len(plan.sets.lines),
        check_ins=len(plan.days.check_ins),
        body_masses=len(plan.days.masses),
        skipped=plan.skipped,
    )
    if plan.sets.lines and isinstance(plan.found, SetLines):
        done.sessions = _save_sets(done, client, plan, plan.found, told)
        done.save(update_fields=["sessions"])
    _save_days(done, client, plan)
    return done


def _save_sets(done: LogImport, client: Client, plan: PastPlan, found: SetLines, told: Told) -> int:
    """Save sessions and sets; return how many sessions are new. One that an earlier import made is filled up."""
    ids = {line.key: past_session_id(client, line.key) for line in reversed(plan.sets.lines)}
    names = {line.key: line.session for line in reversed(plan.sets.lines)}
    rows = Session.objects.filter(client=client, date__gte=done.first_day, date__lte=done.last_day)
    standing = dict(rows.filter(imported__isnull=False).values_list("pk", "started_at"))
    started = {key: standing.get(ids[key]) or _noon(client, key[0], done.at) for key in ids}
    fresh = [
        _session(done, client, ids[key], key, started[key], names[key], found.sessions.get(key, {}))
        for key in sorted(ids)
        if ids[key] not in standing
    ]
    _create(Session, fresh)
    places: dict[SessionKey, int] = dict.fromkeys(ids, 0)
    # A session that is filled up goes on after all that stands in it.
    last = _last_sets(done, client) if standing else {}
    started |= {key: last[pk] for key, pk in ids.items() if pk in last}
    sets = []
    for line, row_id in zip(plan.sets.lines, plan.sets.ids, strict=True):
        places[line.key] += 1
        sets.append(_set(done, client, ids[line.key], line, row_id, started[line.key], places[line.key]))
    for first in range(0, len(sets), AT_ONCE):
        _create(SetLog, sets[first : first + AT_ONCE])
        told(min(first + AT_ONCE, len(sets)), len(sets))
    return len(fresh)


def _last_sets(done: LogImport, client: Client) -> dict[uuid.UUID, dt.datetime]:
    """Return when the last set stands in each session of these days that was brought in."""
    rows = SetLog.objects.filter(client=client, session__imported__isnull=False)
    rows = rows.filter(session__date__gte=done.first_day, session__date__lte=done.last_day)
    return dict(rows.order_by().values_list("session").annotate(Max("performed_at")))


def _noon(client: Client, day: dt.date, now: dt.datetime) -> dt.datetime:
    """Return when a session of the past began, which nobody knows: at noon where the client is, or now on this day."""
    return min(dt.datetime.combine(day, dt.time(12), client.user.zone).astimezone(dt.UTC), now)


def _session(
    done: LogImport, client: Client, pk: uuid.UUID, key: SessionKey, started: dt.datetime, name: str,
    told: dict[str, Any],
) -> Session:  # fmt: skip
    minutes = told.get("minutes")
    return Session(
        pk=pk,
        client=client,
        date=key[0],
        started_at=started,
        finished_at=min(started + dt.timedelta(minutes=minutes or 0), done.at),
        session_rpe=told.get("session_rpe"),
        minutes=minutes,
        note="\n".join(filter(None, (name, told.get("session_note", "")))),
        edited_at=done.at,
        note_edited_at=done.at,
        imported=done,
    )


def _set(
    done: LogImport, client: Client, session: uuid.UUID, line: SetLine, pk: uuid.UUID, started: dt.datetime, place: int,
) -> SetLog:  # fmt: skip
    return SetLog(
        pk=pk,
        client=client,
        session_id=session,
        exercise_id=line.exercise,
        number=line.number,
        side=line.side,
        warm_up=line.warm_up,
        load=line.load,
        unit=line.unit,
        load_kg=line.load_kg,
        reps=line.reps,
        rir=line.rir,
        note=line.note,
        # The true minute is not known; a second each keeps the order of the rows.
        performed_at=started + dt.timedelta(seconds=place),
        edited_at=done.at,
        imported=done,
    )


def _save_days(done: LogImport, client: Client, plan: PastPlan) -> None:
    same = {"client": client, "edited_at": done.at, "imported": done}
    _create(
        CheckIn,
        (
            CheckIn(pk=past_id("check-in", client.pk, line.date), date=line.date, note=line.note, **line.items, **same)
            for line in plan.days.check_ins
        ),
    )
    masses = ((line.date, line.mass) for line in plan.days.masses if line.mass)
    _create(
        BodyMass,
        (
            BodyMass(
                pk=past_id("mass", client.pk, date), date=date, mass=mass[0], unit=mass[1], mass_kg=mass[2], **same
            )
            for date, mass in masses
        ),
    )


def _create(model: type[models.Model], rows: Iterable[models.Model]) -> None:
    model._default_manager.bulk_create(rows, batch_size=AT_ONCE)
