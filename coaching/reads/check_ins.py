"""A week's check-ins as the client page shows them: read from the week's row, nothing computed."""

import datetime as dt
from dataclasses import dataclass
from typing import Any

from coaching.models import WeekSummary
from logbook.models import CheckIn
from periodization.readiness import ITEMS

# From this distance in points an answer is named beside the day's total.
NAMED_FROM = 1.0


@dataclass(frozen=True)
class Item:
    """One answer, 1 to 5, and the client's usual one (None: no baseline yet)."""

    key: str
    name: str
    value: float
    usual: float | None

    @property
    def moved(self) -> bool:
        return self.usual is not None and abs(self.value - self.usual) >= NAMED_FROM


@dataclass(frozen=True)
class CheckInDay:
    """`kept` is what the row keeps of the day, its code and params among it."""

    day: dt.date
    kept: dict[str, Any]
    items: list[Item]

    @property
    def moved(self) -> list[Item]:
        return [one for one in self.items if one.moved]


def check_in_days(summary: WeekSummary | None) -> list[CheckInDay]:
    """Return the days in order; empty without a row or without check-ins."""
    days = summary.check_ins.get("days", []) if summary else []
    labels = {name: str(CheckIn._meta.get_field(name).verbose_name) for name in ITEMS}
    return [
        CheckInDay(
            dt.date.fromisoformat(one["day"]), one, [_item(name, labels[name], *one["items"][name]) for name in ITEMS]
        )
        for one in days
    ]


def _item(key: str, label: str, value: float, from_usual: float | None) -> Item:
    return Item(key, label, value, None if from_usual is None else value - from_usual)
