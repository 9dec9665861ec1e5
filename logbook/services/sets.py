"""Log, edit and delete a set."""

import datetime as dt
from typing import Any

from django.db.models import Max, Q
from django.utils.translation import gettext as _

from logbook.models import Session, SetHistory, SetLog, Side
from logbook.operations.clock import LONGEST_SESSION, check_moment
from logbook.operations.data_sets import MOST_COUNT
from logbook.operations.refused import Refused, id_not_usable, unknown, unknown_set
from logbook.operations.write import Applied, Write
from logbook.services.sessions import own_session
from programs.models import Exercise, Laterality, PlannedSlot
from programs.services.revision_undo import was_planned

VALUES = ("load", "unit", "load_kg", "reps", "rir", "note", "side", "warm_up", "number")


def set_result(row: SetLog) -> dict[str, Any]:
    """Return a set as a phone is told about it."""
    return {
        "id": str(row.pk),
        "session": str(row.session_id),
        "exercise": row.exercise_id,
        "slot": row.slot_id,
        **{name: getattr(row, name) for name in VALUES},
        "confirmed": row.confirmed,
        "performed_at": row.performed_at.isoformat(),
        "edited_at": row.edited_at.isoformat(),
        "deleted": row.deleted_at is not None,
    }


def set_record(*, write: Write) -> Applied:
    """Log a set. An id that is known already (a second device, or an edit that came first) is treated as an edit."""
    session = own_session(write)
    exercise = Exercise.objects.filter(
        Q(practice=None) | Q(practice=write.client.practice_id), pk=write.data["exercise"]
    ).first()
    if exercise is None:
        raise unknown("unknown_exercise", _("There is no such exercise."))
    slot = _slot(write, session)
    side = write.data["side"]
    _check(exercise, side, write.data["reps"])
    performed_at = write.data.get("performed_at") or write.at
    check_moment(performed_at, write.now, "performed_at")
    if performed_at - session.started_at > LONGEST_SESSION:
        performed_at = _written_later(session)
    values = _values(write) | {"number": write.data["number"], "side": side}
    row = SetLog.objects.select_for_update().filter(pk=write.data["set"]).first()
    if row is None:
        row = SetLog(
            pk=write.data["set"], client=write.client, session=session, slot=slot, exercise=exercise,
            performed_at=performed_at, edited_at=write.at, edited_by=write.id, confirmed=write.data["confirmed"],
            **values,
        )  # fmt: skip
        row.save(force_insert=True)
        return Applied({"set": set_result(row), "won": True}, session.date)
    if (row.client_id, row.session_id, row.exercise_id) != (write.client.pk, session.pk, exercise.pk):
        raise id_not_usable()
    won = _merge(row, values, deleted=False, write=write)
    return Applied({"set": set_result(row), "won": won}, session.date)


def set_edit(*, write: Write) -> Applied:
    """Change a set's values; the earlier ones are kept. An edit later than a deletion brings the set back."""
    row = _own_set(write)
    _check(row.exercise, write.data.get("side", row.side), write.data["reps"])
    won = _merge(row, _values(write), deleted=False, write=write)
    return Applied({"set": set_result(row), "won": won}, row.session.date)


def set_delete(*, write: Write) -> Applied:
    """Take a set out of the log; its values are kept in its history."""
    row = _own_set(write)
    won = _merge(row, {}, deleted=True, write=write)
    return Applied({"set": set_result(row), "won": won}, row.session.date)


def _written_later(session: Session) -> dt.datetime:
    """Return when a set counts as done that was written down long after its session: the true minute is not known, the
    session is. One moment for all of them, so that they stand by their numbers in whatever order they come; after what
    was brought into the session from a table, whose rows are a second apart."""
    if session.imported_id is None:
        return session.started_at
    last = SetLog.objects.filter(session=session, imported__isnull=False).aggregate(last=Max("performed_at"))["last"]
    return last + dt.timedelta(seconds=1) if last else session.started_at


def _values(write: Write) -> dict[str, Any]:
    return {name: write.data[name] for name in VALUES if name in write.data}


def _own_set(write: Write) -> SetLog:
    rows = SetLog.objects.select_for_update(of=("self",)).select_related("session", "exercise")
    row = rows.filter(pk=write.data["set"], client=write.client).first()
    if row is None:
        raise unknown_set()
    return row


def _slot(write: Write, session: Session) -> PlannedSlot | None:
    """Return the slot of the plan; its exercise may differ from the set's, which is then a substitute. A slot that a
    revision took out of this session is none: the set was done all the same, and stays under its exercise."""
    if write.data["slot"] is None:
        return None
    slot = PlannedSlot.objects.filter(pk=write.data["slot"], session__client=write.client).first()
    if slot is None and not was_planned(session.planned_id, write.data["slot"]):
        raise unknown("unknown_slot", _("There is no such place in the plan."))
    return slot


def _check(exercise: Exercise, side: str, reps: int) -> None:
    """Refuse what only the exercise can tell: a missing side, too many of what it counts."""
    if exercise.laterality == Laterality.SINGLE and side == Side.BOTH:
        title = _("This exercise is done one side at a time: say which side.")
        raise Refused("side_missing", title, errors={"side": [title]})
    most = MOST_COUNT[exercise.rep_unit]
    if reps > most:
        title = _("At most %(most)s.") % {"most": most}
        raise Refused("max_value", title, errors={"reps": [title]})


def _merge(row: SetLog, values: dict[str, Any], *, deleted: bool, write: Write) -> bool:
    """Let the later of the standing values and `values` stand and put the other into the history."""
    standing = {name: getattr(row, name) for name in VALUES} | {"deleted": row.deleted_at is not None}
    coming = standing | values | {"deleted": deleted}
    won = (write.at, str(write.id)) >= (row.edited_at, str(row.edited_by or ""))
    if coming != standing:
        SetHistory.objects.create(
            set=row, won=won, values=standing if won else coming, edited_at=row.edited_at if won else write.at
        )
    sure = _is_sure(row, values, won, write)
    if won:
        for name, value in values.items():
            setattr(row, name, value)
        row.deleted_at = write.at if deleted else None
        row.edited_at, row.edited_by, row.corrected_by = write.at, write.id, None
        row.confirmed = sure
        row.save()
    elif sure != row.confirmed:
        row.confirmed = sure
        row.save(update_fields=["confirmed"])
    return won


def _is_sure(row: SetLog, values: dict[str, Any], won: bool, write: Write) -> bool:
    """Say whether the load that will stand was said to be right: a yes holds for its load, and for no other."""
    same = values.get("load_kg", row.load_kg) == row.load_kg
    says = bool(write.data.get("confirmed"))
    if same:
        return row.confirmed or says
    return says if won else row.confirmed
