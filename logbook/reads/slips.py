"""Loads of the last weeks that look like slips of the thumb, for the coach's page about the client."""

import datetime as dt
import uuid
from collections import defaultdict
from dataclasses import dataclass
from typing import Any

from accounts.models import Client
from logbook.far_load import slip_of
from logbook.models import SetLog
from logbook.wording import load_words

# Named are those of the last four weeks; later the level of strength has long gone on without them.
SHOWN = dt.timedelta(weeks=4)
# What they are held against may be older. Bounded, so that the cost does not grow with the years.
READ = dt.timedelta(weeks=20)
COLUMNS = (
    "pk", "session_id", "session__date", "session__started_at", "exercise_id", "exercise__name", "exercise__load_kind",
    "exercise__equipment__kind", "slot_id", "slot__exercise_id", "slot__target_load_kg", "load", "unit", "load_kg",
    "warm_up", "confirmed",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Slip:
    """A set whose load carries the mark; `words` is the load as the client typed it."""

    session: uuid.UUID
    date: dt.date
    exercise: str
    words: str


def recent_slips(client: Client, today: dt.date) -> list[Slip]:
    """Return the sets that the pages of their sessions mark, the latest first. One query."""
    rows = SetLog.objects.filter(client=client, deleted_at=None, session__date__gte=today - READ)
    ordered = rows.order_by("session__started_at", "session_id", "performed_at", "number", "side")
    sessions: dict[uuid.UUID, list[dict[str, Any]]] = defaultdict(list)
    for row in ordered.values(*COLUMNS):
        sessions[row["session_id"]].append({**row, "id": row["pk"], "deleted": False})
    last: dict[int, list[dict[str, Any]]] = {}
    found: list[Slip] = []
    for sets in sessions.values():
        if sets[0]["session__date"] >= today - SHOWN:
            found += _of_session(sets, last)
        working: dict[int, list[dict[str, Any]]] = defaultdict(list)
        for row in sets:
            if not row["warm_up"]:
                working[row["exercise_id"]].append(row)
        last |= working
    return found[::-1]


def _of_session(sets: list[dict[str, Any]], last: dict[int, list[dict[str, Any]]]) -> list[Slip]:
    """Hold each set against last time's and the suggestion, as the page of its session does."""
    places: dict[Any, list[dict[str, Any]]] = defaultdict(list)
    for row in sets:
        in_plan = row["slot__exercise_id"] == row["exercise_id"]
        places[row["exercise_id"], row["slot_id"] if in_plan else None].append(row)
    found = []
    for (exercise, slot), rows in places.items():
        first = rows[0]
        about = {"load_kind": first["exercise__load_kind"], "equipment": {"kind": first["exercise__equipment__kind"]}}
        entry = {
            "exercise": about,
            "last": {"sets": last.get(exercise, ())},
            "target": {"load_kg": first["slot__target_load_kg"]} if slot else None,
            "sets": rows,
        }
        for row in rows:
            if slip_of(entry, row) is not None:
                words = load_words(row["load"], row["unit"], about)
                found.append(Slip(row["session_id"], row["session__date"], row["exercise__name"], words))
    return found
