"""Which exercises a flag, or a part of a week's urgency, speaks of: their names are read in one query for a page."""

from collections.abc import Mapping
from typing import Any


def exercises_of(part: Any) -> list[str]:
    """Return the ids of the exercises; `part` is a FlagRow, or a part as WeekSummary.urgency_reasons keeps it."""
    read = part.get if isinstance(part, Mapping) else lambda name: getattr(part, name, None)
    subject = [read("subject")] if read("subject_kind") == "exercise" else []
    values = (read("inputs") or {}).get("values", {})
    return [*subject, *(read("params") or {}).get("exercises", ()), *values.get("watched", ())]
