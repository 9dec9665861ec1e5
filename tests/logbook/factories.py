"""Rows for the logbook's tests: a few exercises with plain loads, a planned session, operations."""

import datetime as dt
import uuid
from typing import Any

from accounts.models import Client
from programs.models import (
    Assignment,
    Equipment,
    Exercise,
    MuscleGroup,
    PlannedSession,
    PlannedSlot,
)

NOW = dt.datetime(2024, 5, 15, 16, 0, tzinfo=dt.UTC)  # a Wednesday

LADDERS = {
    "barbell": ("plates", {"kind": "plates", "bar": 20, "pairs": [[20, 2], [10, 2], [5, 2], [2.5, 2], [1.25, 2]]}),
    "dumbbell": ("dumbbells", {"kind": "fixed", "min": 2, "max": 40, "step": 2}),
    "stack": ("stack", {"kind": "stack", "min": 5, "max": 100, "step": 5, "add_ons": [2.5]}),
    "body-weight": ("body", {"kind": "fixed", "min": 0, "max": 60, "step": 2.5}),
    "station": ("assisted", {"kind": "stack", "min": 5, "max": 80, "step": 5}),
    "band": ("none", {"kind": "none"}),
}
GRADES = dict.fromkeys(("grade_activation", "grade_long_length", "grade_loadability", "grade_near_failure"), 3)


def make_exercise(slug: str, equipment: str = "stack", **fields: Any) -> Exercise:
    kind, ladder = LADDERS[equipment]
    gear, _ = Equipment.objects.get_or_create(
        practice=None, slug=equipment, defaults={"name": equipment.replace("-", " "), "kind": kind, "ladder": ladder}
    )
    values = {
        "name": slug.replace("-", " ").capitalize(),
        "set_up": "Seat at knee height.",
        "cues": ["Slow on the way down."],
        "cautions": ["Stop when the joint hurts."],
        **GRADES,
        **fields,
    }
    return Exercise.objects.create(slug=slug, equipment=gear, **values)


def make_groups(*slugs: str) -> None:
    for slug in slugs or ("biceps", "chest"):
        MuscleGroup.objects.get_or_create(slug=slug, defaults={"name": slug, "region": "arm"})


def make_planned(client: Client, date: dt.date, *slots: dict[str, Any], coach=None, **fields: Any) -> PlannedSession:
    """Plan one session; each slot is {"exercise": Exercise, ...} with a plain prescription for the rest."""
    author = coach or client.practice.memberships.first().user
    assignment, _ = Assignment.objects.get_or_create(
        client=client, name="Arms first",
        defaults={"program_version": 1, "starts_on": date, "weekdays": [0, 3], "created_by": author},
    )  # fmt: skip
    values = {"day_name": "Day one", "block_name": "Block one", "block_number": 1, "week_number": 1, "day_number": 1}
    session = PlannedSession.objects.create(assignment=assignment, client=client, date=date, **values | fields)
    plain = {"sets": 3, "reps_min": 8, "reps_max": 12, "rir_min": 1, "rir_max": 2, "rest_s": 90}
    PlannedSlot.objects.bulk_create(
        PlannedSlot(session=session, position=position, **plain | slot) for position, slot in enumerate(slots, 1)
    )
    return session


def op(kind: str, at: dt.datetime = NOW, id: uuid.UUID | str | None = None, **data: Any) -> dict[str, Any]:
    """An operation as a phone sends it."""
    data = {name: str(value) if isinstance(value, uuid.UUID) else value for name, value in data.items()}
    return {"id": str(id or uuid.uuid4()), "kind": kind, "at": at.isoformat(), "data": data}


def set_data(session: uuid.UUID | str, exercise: Exercise, **data: Any) -> dict[str, Any]:
    """The data of a set as prescribed, but for what is named."""
    values = {"set": uuid.uuid4(), "session": session, "exercise": exercise.pk, "number": 1}
    return {**values, "load": 40, "unit": "kg", "reps": 10, "rir": 1, **data}
