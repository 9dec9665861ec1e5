"""The trend of a client's main lifts, read from the week's row."""

from dataclasses import dataclass
from typing import Any

from coaching.models import WeekSummary

MOST_LIFTS = 2
KNOWN = ("trend_rising", "trend_falling", "trend_flat", "trend_unclear")


@dataclass(frozen=True)
class Lift:
    """`percent` is the middle of the weekly rate; `recent` the latest sessions' e1RM in kg, oldest first."""

    exercise: str
    code: str
    kept: dict[str, Any]
    percent: float | None
    recent: list[float]


def main_lifts(summary: WeekSummary) -> list[Lift]:
    """Return the most trained exercises of the look back that say something, then the heaviest."""
    known = [(key, one) for key, one in summary.trends.items() if one["code"] in KNOWN and one["level_kg"]]
    known.sort(key=lambda found: (-found[1]["points"], -found[1]["level_kg"][1], found[0]))
    return [
        Lift(key, one["code"], one, (one["slope_percent_week"] or [None] * 3)[1], one.get("recent", []))
        for key, one in known[:MOST_LIFTS]
    ]
