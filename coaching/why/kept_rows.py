"""The sets and slots that a week's row kept, by name."""

import datetime as dt
from collections.abc import Mapping
from typing import Any, NamedTuple

from periodization.compliance import DoneSet, PlannedSlot
from periodization.dose import CountedSet


class KeptSet(NamedTuple):
    """A set as WeekSummary.inputs keeps it."""

    id: str
    exercise: int
    rir: float | None
    warm_up: bool
    side: str
    session: str
    # A row of before these were kept reads as if there were none, and its answer then says that it is out of date.
    slot: int | None = None
    number: int = 0

    @property
    def weight(self) -> float:
        """One side is half a set."""
        return 1.0 if self.side == "both" else 0.5

    def counts(self, rir_limit: float) -> bool:
        return not self.warm_up and (self.rir is None or self.rir <= rir_limit)

    @property
    def counted(self) -> CountedSet:
        return CountedSet(str(self.exercise), self.rir, self.warm_up, self.side)  # type: ignore[arg-type]


class KeptSlot(NamedTuple):
    """A slot as WeekSummary.inputs keeps it; `performed_on` is the day its session was begun, "" for not yet."""

    id: int
    exercise: int
    sets: int
    rir_max: int
    session: int
    rir_min: int = 0
    date: str = "9999-12-31"
    performed_on: str = ""

    def begun(self, as_of: dt.date) -> bool:
        return bool(self.performed_on) and dt.date.fromisoformat(self.performed_on) <= as_of

    def due(self, as_of: dt.date) -> bool:
        return dt.date.fromisoformat(self.date) < as_of or self.begun(as_of)

    def ahead(self, as_of: dt.date) -> bool:
        return dt.date.fromisoformat(self.date) >= as_of and not self.begun(as_of)

    @property
    def planned(self) -> PlannedSlot:
        return PlannedSlot(str(self.session), str(self.id), self.sets, float(self.rir_min), float(self.rir_max))


def kept_sets(inputs: Mapping[str, Any]) -> list[KeptSet]:
    return [KeptSet(*row) for row in inputs["sets"]]


def late_sets(inputs: Mapping[str, Any]) -> list[KeptSet]:
    """Return the sets of other weeks that were done for slots of this one."""
    return [KeptSet(*row) for row in inputs.get("late", ())]


def kept_slots(inputs: Mapping[str, Any]) -> list[KeptSlot]:
    return [KeptSlot(*row) for row in inputs["slots"]]


def done_sets(rows: list[KeptSet], slots: Mapping[int, KeptSlot]) -> list[DoneSet]:
    """Bring the two sides of a set together, at the harder side's RIR, as coaching/recompute/adapters.py does."""
    sides: dict[tuple[Any, ...], list[KeptSet]] = {}
    for row in rows:
        own = row.id if row.side == "both" else None
        key = (row.session, row.slot, row.exercise, row.number, row.warm_up, own)
        sides.setdefault(key, []).append(row)
    found = []
    for (_session, slot_id, _exercise, _number, warm_up, _own), same in sides.items():
        known = [row.rir for row in same if row.rir is not None]
        slot = slots.get(slot_id) if slot_id is not None else None
        found.append(
            DoneSet(
                str(slot.session) if slot else None,
                str(slot.id) if slot else None,
                min(known) if known else None,
                warm_up,
            )
        )
    return found
