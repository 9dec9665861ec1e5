"""Record how the client feels: check-in, body mass, pain."""

import datetime as dt
from typing import Any

from django.utils.translation import gettext as _

from logbook.models import BodyMass, CheckIn, PainReport, Session
from logbook.operations.clock import SKEW, check_day
from logbook.operations.data_wellbeing import ITEMS
from logbook.operations.refused import Refused, id_not_usable, unknown, unknown_session
from logbook.operations.write import Applied, Write
from logbook.services.standing import merge
from programs.models import Exercise, MuscleGroup

STOP_OVER = 5  # pain over 5 of 10 stops the exercise (literature.md, section 9)


def _day(write: Write) -> dt.date:
    day = write.data.get("date") or write.day_of(write.at)
    check_day(day, write.day_of(write.now + SKEW), "date")
    return day


def check_in_result(row: CheckIn) -> dict[str, Any]:
    items = {name: getattr(row, name) for name in ITEMS}
    return {"id": str(row.pk), "date": row.date.isoformat(), **items, "total": row.total,
            "sore_groups": row.sore_groups, "note": row.note}  # fmt: skip


def checkin_record(*, write: Write) -> Applied:
    """Record the day's check-in; a second one of the day is an edit, and the earlier answers are kept."""
    date = _day(write)
    sore = sorted(set(write.data["sore_groups"]))
    if missing := set(sore) - set(MuscleGroup.objects.filter(slug__in=sore).values_list("slug", flat=True)):
        title = _("There is no such muscle group: %(names)s.") % {"names": ", ".join(sorted(missing))}
        raise Refused("unknown_muscle_group", title, errors={"sore_groups": [title]})
    values = {name: write.data[name] for name in (*ITEMS, "note")} | {"sore_groups": sore}
    row = CheckIn.objects.select_for_update().filter(client=write.client, date=date).first()
    won = True
    if row is None:
        row = CheckIn.objects.create(client=write.client, date=date, edited_at=write.at, **values)
    else:
        won = merge(row, values, write.at)
    return Applied({"check_in": check_in_result(row), "won": won}, date)


def bodymass_record(*, write: Write) -> Applied:
    """Record the day's body mass as typed, with kilograms beside it."""
    date = _day(write)
    values = {name: write.data[name] for name in ("mass", "unit", "mass_kg")}
    row = BodyMass.objects.select_for_update().filter(client=write.client, date=date).first()
    won = True
    if row is None:
        row = BodyMass.objects.create(client=write.client, date=date, edited_at=write.at, **values)
    else:
        won = merge(row, values, write.at)
    result = {"id": str(row.pk), "date": date.isoformat(), "mass": row.mass, "unit": row.unit, "mass_kg": row.mass_kg}
    return Applied({"body_mass": result, "won": won}, date)


def pain_report(*, write: Write) -> Applied:
    """Keep a report of pain. `stop` says that the exercise should end; what the pain is, nobody here says."""
    data = write.data
    if PainReport.objects.filter(pk=data["report"]).exists():
        raise id_not_usable()
    days = [write.day_of(write.at)]
    if data["session"]:
        session = Session.objects.filter(pk=data["session"], client=write.client).first()
        if session is None:
            raise unknown_session()
        # A report belongs to its session's day, even when it is made in a later week.
        days.append(session.date)
    exercises = Exercise.objects.filter(practice=None) | Exercise.objects.filter(practice=write.client.practice_id)
    if data["exercise"] and not exercises.filter(pk=data["exercise"]).exists():
        raise unknown("unknown_exercise", _("There is no such exercise."))
    row = PainReport.objects.create(
        pk=data["report"], client=write.client, session_id=data["session"], exercise_id=data["exercise"],
        site=data["site"], side=data["side"], score=data["score"], note=data["note"], reported_at=write.at,
    )  # fmt: skip
    result = {"id": str(row.pk), "site": row.site, "side": row.side, "score": row.score, "stop": row.score > STOP_OVER}
    return Applied({"pain_report": result}, min(days))
