"""The session page's content: one session, its exercises, what is logged and what comes next."""

import datetime as dt
import uuid
from dataclasses import dataclass
from typing import Any

from django.db.models import Max
from django.utils.translation import gettext as _

from accounts.models import Client
from logbook.models import Session, SetLog, SlotSkip
from logbook.reads.adapted import adapted_words
from logbook.reads.entries import extra_entry, slot_entry
from logbook.reads.ladders import ladder_dict, ladder_key
from logbook.reads.last_time import last_time
from logbook.reads.rows import set_row
from logbook.reads.swaps import bring_in, listed_substitutes, swap_entries, swap_entry
from logbook.reads.upcoming import body_mass_of
from logbook.services.sessions import session_id_for
from programs.models import Exercise, PlannedSession, PlannedSlot
from programs.services.fit_since import with_closed


@dataclass(frozen=True, slots=True)
class Sheet:
    """`data` is what the page's script reads; `session` is None until the first set is logged."""

    session: Session | None
    planned: PlannedSession | None
    data: dict[str, Any]


def sheet_for(
    client: Client,
    *,
    today: dt.date,
    session: Session | None = None,
    planned: PlannedSession | None = None,
    extra: Exercise | None = None,
    swap: str = "",
) -> Sheet:
    """Return the sheet of a session, or of a planned one that has not begun. At most fifteen queries.

    `extra` is an exercise to add, `swap` the key of a listed substitute to bring in.
    """
    planned = session.planned if session else planned
    slots = list(with_closed(planned.slots.select_related("exercise__equipment"), today)) if planned else []
    sets, skips = _logged(session)
    exercises = {slot.exercise_id: slot.exercise for slot in slots}
    substitutes = listed_substitutes(client, list(exercises), today=today) if slots else {}
    exercises |= {row.pk: row for rows in substitutes.values() for row in rows}
    exercises |= {row.exercise_id: row.exercise for row in sets}
    if extra:
        exercises[extra.pk] = extra
    last = last_time(client, exercises, today=today, before=session)
    adapted = adapted_words(planned, slots, client.user.load_unit) if planned else {}
    entries = [
        slot_entry(slot, last, client.user.load_unit)
        | {"sets": [], "skip": skips.get(slot.pk), "adapted": adapted.get(slot.pk, [])}
        | {"closed": closed_words(slot)}
        for slot in slots
    ]
    _place(sets, entries, last)
    swaps = swap_entries(entries, substitutes, last)
    chosen = next((entry for entry in swaps if entry["key"] == swap), None)
    if chosen:
        swaps.remove(chosen)
        bring_in(entries, chosen)
    if extra and all(entry["exercise"]["id"] != extra.pk for entry in entries):
        entries.append(extra_entry(extra, last) | {"sets": [], "skip": None})
    data = {
        "session": _head(client, today, session, planned),
        "unit": client.user.load_unit,
        "body_mass": body_mass_of(client),
        "ladders": {ladder_key(row): ladder_dict(row, client.user.load_unit) for row in exercises.values()},
        "exercises": entries,
        "swaps": swaps,
        "pain": _worst_pain(session),
    }
    return Sheet(session, planned, data)


def closed_words(slot: PlannedSlot) -> str:
    """Return which limit of the client closes a planned exercise, in a sentence; nothing for one that is open."""
    if not slot.closed:  # type: ignore[attr-defined]
        return ""
    name = slot.closed_by  # type: ignore[attr-defined]
    return _("You keep from: %(limit)s.") % {"limit": name} if name else _("You keep from this exercise.")


def _logged(session: Session | None) -> tuple[list[SetLog], dict[int, dict[str, Any]]]:
    if session is None:
        return [], {}
    sets = session.sets.select_related("exercise__equipment", "corrected_by").prefetch_related("history")
    skips = SlotSkip.objects.filter(session=session)
    return list(sets), {
        row.slot_id: {
            "skipped": row.skipped,
            "reason": row.reason,
            "words": row.get_reason_display(),
            "edited_at": row.edited_at.isoformat(),
        }
        for row in skips
    }


def _place(sets: list[SetLog], entries: list[dict[str, Any]], last: dict[int, dict[str, Any]]) -> None:
    """Put each set under its slot while the plan still has it, else under its exercise, which is added if need be."""
    by_slot = {(entry["slot"], entry["exercise"]["id"]): entry for entry in entries}
    by_exercise = {entry["exercise"]["id"]: entry for entry in reversed(entries)}
    slots = {entry["slot"]: entry for entry in entries}
    for row in sets:
        entry = by_slot.get((row.slot_id, row.exercise_id)) or by_exercise.get(row.exercise_id)
        if entry is None and row.slot_id in slots:
            entry = by_exercise[row.exercise_id] = swap_entry(slots[row.slot_id], row.exercise, last)
            bring_in(entries, entry)
        elif entry is None:
            entry = by_exercise[row.exercise_id] = extra_entry(row.exercise, last) | {"sets": [], "skip": None}
            entries.append(entry)
        entry["sets"].append(set_row(row))


def _worst_pain(session: Session | None) -> dict[str, int]:
    """Map exercise ids (as text, for JSON) to the worst pain reported in this session."""
    if session is None:
        return {}
    rows = session.pain_reports.exclude(exercise=None).order_by().values_list("exercise").annotate(Max("score"))
    return {str(exercise): score for exercise, score in rows}


def _head(client: Client, today: dt.date, session: Session | None, planned: PlannedSession | None) -> dict[str, Any]:
    identity: uuid.UUID | None = session.pk if session else session_id_for(planned.pk) if planned else None
    return {
        "id": str(identity) if identity else None,
        "planned": planned.pk if planned else None,
        "planned_date": planned.date.isoformat() if planned else None,
        "name": planned.day_name if planned else "",
        "is_deload": bool(planned and planned.is_deload),
        "date": session.date.isoformat() if session else None,
        "started_at": session.started_at.isoformat() if session else None,
        "finished_at": session.finished_at.isoformat() if session and session.finished_at else None,
        "session_rpe": session.session_rpe if session else None,
        "minutes": session.minutes if session else None,
        "note": session.note if session else "",
        "note_edited_at": session.note_edited_at.isoformat() if session and session.note_edited_at else None,
        # Where a planned session of an earlier day is written down today, its noon stands for the unknown hour.
        "then": noon_of(planned.date, client).isoformat() if planned and not session and planned.date < today else None,
    }


def noon_of(day: dt.date, client: Client) -> dt.datetime:
    """Return noon of a day in the client's zone."""
    return dt.datetime.combine(day, dt.time(12), tzinfo=client.user.zone)
