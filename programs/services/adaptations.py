"""Adaptations as rows, and as changes of a document."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from accounts.models import User
from programs.document.adapt import Change
from programs.models import Adaptation, Assignment


@dataclass(frozen=True, slots=True)
class Adapted:
    """A change with the reason for it, as a code with parameters; `edited`: the coach chose otherwise than proposed;
    `days`: the first and last of the days that it is for, where it is not for all."""

    change: Change
    reason: str
    params: Mapping[str, Any] = field(default_factory=dict)
    edited: bool = False
    days: tuple[date, date] | None = None


def rows_to_make(assignment: Assignment, fitted: Iterable[Adapted], by: User) -> list[Adaptation]:
    """Return the records of an assignment's adaptations, not saved yet."""
    return [
        Adaptation(
            assignment=assignment,
            client_id=assignment.client_id,
            kind=one.change.kind,
            exercise_id=one.change.exercise,
            to_exercise_id=one.change.to,
            slots=sorted(one.change.slots),
            change=numbers_of(one.change),
            reason=one.reason,
            reason_params=dict(one.params),
            edited=one.edited,
            starts_on=one.days[0] if one.days else None,
            until=one.days[1] if one.days else None,
            created_by=by,
        )
        for one in fitted
    ]


def numbers_of(change: Change) -> dict[str, Any]:
    """Return what is neither exercise nor slot of a change, without what says nothing."""
    said: dict[str, Any] = {}
    if change.factor != 1.0:
        said["factor"] = change.factor
    for name in ("less", "rir"):
        if value := getattr(change, name):
            said[name] = value
    if change.pairs:
        said["pairs"] = [list(keys) for keys in change.pairs]
    if change.load_kg is not None:
        said["load_kg"] = change.load_kg
    return said


def change_of(row: Adaptation) -> Change:
    """Return what an adaptation does to a document."""
    numbers = row.change
    return Change(
        kind=row.kind,
        exercise=row.exercise_id,
        to=row.to_exercise_id,
        slots=frozenset(row.slots),
        factor=float(numbers.get("factor", 1.0)),
        less=int(numbers.get("less", 0)),
        rir=int(numbers.get("rir", 0)),
        pairs=tuple(tuple(keys) for keys in numbers.get("pairs", ())),
        load_kg=numbers.get("load_kg"),
    )


def changes_of(rows: Iterable[Adaptation]) -> list[Change]:
    """Return the changes that count, in the order in which they were made; what was undone does not."""
    return [change_of(row) for row in rows if row.undone_at is None]
