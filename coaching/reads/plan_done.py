"""One week of one client: what was planned and, beside it, what was done."""

import datetime as dt
from collections import defaultdict
from dataclasses import dataclass, field
from typing import Any

from django.db.models import Q

from accounts.models import Client
from coaching.recompute.calendar import WEEK, week_of
from logbook.models import Session, SetLog
from programs.models import Exercise, PlannedSession, PlannedSlot


@dataclass(frozen=True)
class DoneSets:
    """Sets of the same load one after the other: `load` in the `unit` typed x `reps`, each with its RIR (None: not
    given)."""

    load: float
    unit: str
    load_kg: float
    sets: list[tuple[int, float | None]]


@dataclass
class Line:
    """One exercise of a day. `slot` is None for what no plan asked for. `sides` maps both, left and right to sets."""

    exercise: Exercise
    slot: PlannedSlot | None
    sides: dict[str, list[DoneSets]] = field(default_factory=dict)

    @property
    def done(self) -> list[tuple[str, list[DoneSets]]]:
        """Return (side, sets): the two sides as "each" where they were the same."""
        if set(self.sides) == {"left", "right"} and self.sides["left"] == self.sides["right"]:
            return [("each", self.sides["left"])]
        return sorted(self.sides.items())


@dataclass
class Day:
    """One training day: the planned session, the performed one, or both."""

    date: dt.date
    planned: PlannedSession | None
    performed: Session | None
    lines: list[Line]
    state: str  # done, open, missed, extra

    @property
    def moved_to(self) -> dt.date | None:
        """The day on which it was done, where that is not the day it was planned for."""
        if self.planned is None or self.performed is None or self.performed.date == self.planned.date:
            return None
        return self.performed.date

    @property
    def too_late(self) -> bool:
        """Whether it was done when the week's row stood already (docs/methods/compliance.md)."""
        return bool(self.moved_to) and self.moved_to > week_of(self.date) + WEEK


def plan_and_done(client: Client, monday: dt.date, today: dt.date) -> list[Day]:
    """Return the week's days in order, in three queries."""
    end = monday + WEEK
    slots = (
        PlannedSlot.objects.filter(session__client=client, session__date__gte=monday, session__date__lt=end)
        .filter(Q(session__cancelled_at=None) | Q(session__performed__isnull=False))
        .select_related("session", "exercise__equipment")
        .order_by("session__date", "session_id", "position")
    )
    planned: dict[int, list[PlannedSlot]] = defaultdict(list)
    for slot in slots:
        planned[slot.session_id].append(slot)
    sessions = list(
        Session.objects.filter(client=client)
        .filter(Q(planned__in=planned) | Q(date__gte=monday, date__lt=end))
        .order_by("started_at")
    )
    sets: dict[Any, list[SetLog]] = defaultdict(list)
    for row in (
        SetLog.objects.filter(session__in=sessions, deleted_at=None, warm_up=False)
        .select_related("exercise__equipment")
        .order_by("performed_at", "number", "side")
    ):
        sets[row.session_id].append(row)
    by_plan = {session.planned_id: session for session in sessions if session.planned_id in planned}
    days = [_day(rows, by_plan.get(key), sets, today) for key, rows in planned.items()]
    days += [
        Day(one.date, None, one, _lines([], sets[one.pk]), "extra") for one in sessions if one.planned_id not in planned
    ]
    return sorted(days, key=lambda day: (day.date, day.planned.pk if day.planned else 0))


def _day(slots: list[PlannedSlot], performed: Session | None, sets: dict[Any, list[SetLog]], today: dt.date) -> Day:
    planned = slots[0].session
    state = "done" if performed else "missed" if planned.date < today else "open"
    return Day(planned.date, planned, performed, _lines(slots, sets[performed.pk] if performed else []), state)


def _lines(slots: list[PlannedSlot], rows: list[SetLog]) -> list[Line]:
    """Lay the sets beside their slots; what has no slot here follows, by exercise."""
    lines = {slot.pk: Line(slot.exercise, slot) for slot in slots}
    extra: dict[int, Line] = {}
    for row in rows:
        line = lines.get(row.slot_id) if row.slot_id else None
        if line is None or line.slot is None or line.slot.exercise_id != row.exercise_id:
            line = extra.setdefault(row.exercise_id, Line(row.exercise, None))
        done = line.sides.setdefault(row.side, [])
        if done and (done[-1].load, done[-1].unit) == (row.load, row.unit):
            done[-1].sets.append((row.reps, row.rir))
        else:
            done.append(DoneSets(row.load, row.unit, row.load_kg, [(row.reps, row.rir)]))
    return [*lines.values(), *extra.values()]
