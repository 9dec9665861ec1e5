"""Logged rows as a phone and its pages read them."""

from typing import Any

from logbook.models import SetLog
from logbook.services.sets import VALUES


def set_row(row: SetLog) -> dict[str, Any]:
    """Return a set; its earlier values, and which coach corrected it, where these were read along."""
    values = {name: getattr(row, name) for name in VALUES}
    entry = {"id": str(row.pk), "exercise": row.exercise_id, "slot": row.slot_id, **values}
    entry["performed_at"] = row.performed_at.isoformat()
    entry["edited_at"] = row.edited_at.isoformat()
    entry["confirmed"] = row.confirmed
    entry["deleted"] = row.deleted_at is not None
    if "corrected_by" in row._state.fields_cache:
        entry["corrected_by"] = str(row.corrected_by or "")
    if "history" in getattr(row, "_prefetched_objects_cache", {}):
        entry["history"] = [
            {"values": h.values, "won": h.won, "edited_at": h.edited_at.isoformat()} for h in row.history.all()
        ]
    return entry
