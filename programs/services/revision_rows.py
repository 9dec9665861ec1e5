"""Write the rows of a revision, and keep what was there."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from django.db.models import F

from programs.models import PlannedSession, PlannedSlot
from programs.services.revision_slots import Fields, SlotStep

# Out of the way of every real position while rows change places: (session, position) is unique at each moment.
ASIDE = 1000
TARGETS = ("target_load_kg", "target_reps", "target_reason")


@dataclass
class SlotWrites:
    """Rows to write at once, for as many sessions as there are. Rows with the same change are one query: their number
    follows the program, not the clients."""

    made: list[PlannedSlot] = field(default_factory=list)
    gone: list[int] = field(default_factory=list)
    changed: dict[tuple[tuple[str, Any], ...], list[int]] = field(default_factory=dict)

    def put(self, row: int, before: Fields, after: Fields, content: bool) -> None:
        """Write what differs on a row there is. A target that was worked out for another prescription is taken off:
        the worker makes the next one."""
        delta = {name: value for name, value in after.items() if before[name] != value}
        if content:
            delta |= dict.fromkeys(TARGETS)
        if delta:
            self.changed.setdefault(tuple(sorted(delta.items())), []).append(row)

    def step(self, session: PlannedSession, step: SlotStep) -> dict[str, Any]:
        """Note one step; return its record, which `linked` completes where the row is new."""
        if step.row is None:
            row = PlannedSlot(session=session, **(step.after or {}))
            self.made.append(row)
            return {"slot": row, "before": None, "after": step.after}
        if step.after is None:
            self.gone.append(step.row.pk)
        else:
            self.put(step.row.pk, step.before or {}, step.after, step.content)
        return {"slot": step.row.pk, "before": step.before, "after": step.after}

    def save(self) -> None:
        """Write everything."""
        PlannedSlot.objects.filter(pk__in=self.gone).delete()
        moving = [row for delta, rows in self.changed.items() if "position" in dict(delta) for row in rows]
        PlannedSlot.objects.filter(pk__in=moving).update(position=F("position") + ASIDE)
        for delta, rows in self.changed.items():
            PlannedSlot.objects.filter(pk__in=rows).update(**dict(delta))
        PlannedSlot.objects.bulk_create(self.made, batch_size=500)


def linked(records: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the records of slots with the ids that saving gave to new rows."""
    return [one | {"slot": one["slot"].pk if isinstance(one["slot"], PlannedSlot) else one["slot"]} for one in records]


def plain(fields: dict[str, Any]) -> dict[str, Any]:
    """Return a session's fields as JSON holds them."""
    return {
        name: value.isoformat() if isinstance(value, dt.date | dt.datetime) else value for name, value in fields.items()
    }


def typed(fields: dict[str, Any]) -> dict[str, Any]:
    """Return a session's fields from what JSON holds."""
    return {name: PlannedSession._meta.get_field(name).to_python(value) for name, value in fields.items()}
