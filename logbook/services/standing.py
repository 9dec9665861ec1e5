"""Of two edits the later one by the client's own clock stands, whatever the order in which they arrive."""

import datetime as dt
from typing import Any

from django.db import models


def merge(
    row: models.Model, values: dict[str, Any], at: dt.datetime, *, clock: str = "edited_at", list_of: str = "earlier"
) -> bool:
    """Let `values` stand on `row` if they are not older than what stands; keep the others in the row's list.

    Saves the row. Return whether `values` stand now.
    """
    standing_at: dt.datetime | None = getattr(row, clock)
    earlier: list[dict[str, Any]] = getattr(row, list_of)
    before = {name: getattr(row, name) for name in values}
    won = standing_at is None or at >= standing_at
    if standing_at is not None and before != values:
        kept, kept_at = (before, standing_at) if won else (values, at)
        earlier.append({"values": kept, "edited_at": kept_at.isoformat(), "won": won})
    if won:
        for name, value in values.items():
            setattr(row, name, value)
        setattr(row, clock, at)
    row.save(update_fields=[*values, clock, list_of])
    return won
