"""Begin, finish and annotate a session."""

import datetime as dt
import uuid
from typing import Any

from django.utils.crypto import salted_hmac
from django.utils.translation import gettext as _

from logbook.models import Session
from logbook.operations.clock import LONGEST_SESSION, check_moment
from logbook.operations.refused import Refused, id_not_usable, unknown, unknown_session
from logbook.operations.write import Applied, Write
from logbook.services.standing import merge
from programs.models import PlannedSession
from programs.services.revision_undo import revision_withdraw


def session_id_for(planned_id: int) -> uuid.UUID:
    """Return the id that every device gives the session of one planned session, so that two devices meet in one row.

    Keyed, so that nobody else can occupy the id beforehand.
    """
    digest = salted_hmac("logbook.session", str(planned_id), algorithm="sha256").digest()
    return uuid.UUID(bytes=digest[:16], version=4)


def session_result(session: Session) -> dict[str, Any]:
    """Return a session as a phone is told about it."""
    return {
        "id": str(session.pk),
        "planned": session.planned_id,
        "date": session.date.isoformat(),
        "started_at": session.started_at.isoformat(),
        "finished_at": session.finished_at and session.finished_at.isoformat(),
        "session_rpe": session.session_rpe,
        "minutes": session.minutes,
        "note": session.note,
    }


def own_session(write: Write) -> Session:
    """Return the client's session that the data names, locked, or refuse as for one that does not exist."""
    session = Session.objects.select_for_update().filter(pk=write.data["session"], client=write.client).first()
    if session is None:
        raise unknown_session()
    return session


def session_start(*, write: Write) -> Applied:
    """Begin a session; on a second device the earlier beginning counts."""
    started_at = write.data.get("started_at") or write.at
    check_moment(started_at, write.now, "started_at")
    planned = _planned(write)
    session = Session.objects.select_for_update().filter(pk=write.data["session"]).first()
    if session is None:
        if planned is not None:
            revision_withdraw(planned=planned, begun_at=started_at)
        session = Session(
            pk=write.data["session"], client=write.client, planned=planned, started_at=started_at,
            date=write.day_of(started_at),
        )  # fmt: skip
        session.save(force_insert=True)
        return Applied({"session": session_result(session)}, session.date)
    if session.client_id != write.client.pk or (planned and session.planned_id not in (None, planned.pk)):
        raise id_not_usable()
    first = min(session.date, write.day_of(started_at))
    session.planned = session.planned or planned
    session.started_at = min(session.started_at, started_at)
    session.date = write.day_of(session.started_at)
    session.save(update_fields=["planned", "started_at", "date"])
    return Applied({"session": session_result(session)}, first)


def _planned(write: Write) -> PlannedSession | None:
    if write.data["planned"] is None:
        return None
    planned = PlannedSession.objects.filter(pk=write.data["planned"], client=write.client).first()
    if planned is None:
        raise unknown("unknown_planned_session", _("There is no such planned session."))
    other = Session.objects.filter(planned=planned).exclude(pk=write.data["session"]).first()
    if other:
        title = _("This planned session has already begun.")
        raise Refused("already_started", title, status=409, session=str(other.pk))
    return planned


def session_finish(*, write: Write) -> Applied:
    """Finish a session; sets that arrive later still belong to it, and finishing again corrects RPE and minutes."""
    session = own_session(write)
    minutes = write.data["minutes"]
    ended = write.at
    if ended - session.started_at > LONGEST_SESSION:  # written down later: the clock of now says nothing
        ended = session.started_at + dt.timedelta(minutes=minutes or 0)
    session.finished_at = ended if session.finished_at is None else min(session.finished_at, ended)
    session.save(update_fields=["finished_at"])
    won = merge(session, {"session_rpe": write.data["session_rpe"], "minutes": minutes}, write.at)
    if "note" in write.data:
        merge(session, {"note": write.data["note"]}, write.at, clock="note_edited_at")
    return Applied({"session": session_result(session), "won": won}, session.date)


def session_note(*, write: Write) -> Applied:
    """Write the session's note."""
    session = own_session(write)
    won = merge(session, {"note": write.data["note"]}, write.at, clock="note_edited_at")
    return Applied({"session": session_result(session), "won": won}, session.date)


def session_discard(*, write: Write) -> Applied:
    """Remove a session in which nothing was logged, so that a slip of the thumb leaves no trace."""
    session = own_session(write)
    if session.sets.exists() or session.pain_reports.exists() or session.finished_at or session.note:
        raise Refused("session_not_empty", _("Something is logged in this session, so it stays."), status=409)
    session.delete()
    return Applied({"discarded": str(write.data["session"])}, session.date)
