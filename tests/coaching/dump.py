"""Every derived row as plain values, to compare a rebuild with what was there, bit for bit."""

from typing import Any

from coaching.models import FlagRow, Prompt, StrengthPoint, WeekSummary
from programs.models import PlannedSlot


def dump() -> dict[str, list[dict[str, Any]]]:
    """Return all derived rows without the database's own row numbers, in an order of their content."""
    return {
        "weeks": _rows(WeekSummary.objects.order_by("client", "week")),
        "points": _rows(StrengthPoint.objects.order_by("client", "session", "exercise")),
        "flags": _rows(FlagRow.objects.order_by("id"), keep_id=True),
        "prompts": _rows(Prompt.objects.order_by("id"), keep_id=True),
        "targets": list(
            PlannedSlot.objects.filter(session__performed=None)
            .order_by("pk")
            .values("pk", "target_load_kg", "target_reps", "target_reason")
        ),
    }


def _rows(rows: Any, keep_id: bool = False) -> list[dict[str, Any]]:
    found = list(rows.values())
    if not keep_id:
        for row in found:
            del row["id"]
    return found
