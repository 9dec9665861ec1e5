"""The week's body mass and reports of pain by site: description, so that a page need count nothing."""

import datetime as dt
from collections import defaultdict
from typing import Any

from coaching.recompute.adapters import pain_day
from coaching.recompute.rows import Log, PainRow


def body_json(log: Log, monday: dt.date, as_of: dt.date, zone: dt.tzinfo) -> dict[str, Any]:
    """Return the masses by day, and for each site and side the number of reports and the worst of them, 0 to 10."""
    sites: dict[tuple[str, str], list[tuple[dt.date, PainRow]]] = defaultdict(list)
    for row in log.pains:
        day = pain_day(row, zone)
        if monday <= day <= as_of:
            sites[row.site, row.side].append((day, row))
    return {
        "masses": [
            {"id": str(row.id), "day": row.date.isoformat(), "kg": row.mass_kg}
            for row in log.masses
            if monday <= row.date <= as_of
        ],
        "pain": [
            {
                "site": site,
                "side": side,
                "reports": len(rows),
                "worst": max(row.score for _, row in rows),
                "last": max(day for day, _ in rows).isoformat(),
                "ids": [str(row.id) for _, row in rows],
            }
            for (site, side), rows in sorted(sites.items())
        ],
    }
