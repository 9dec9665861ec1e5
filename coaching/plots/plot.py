"""One plot: days, and what is told of each. The picture, the table and the file all come from it."""

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

from programs.templatetags.loads import plain

Cell = float | str | None


@dataclass(frozen=True)
class Series:
    """One column. `draw`: line, points, open (points of what is planned), bars, low and high (the two ends of a band),
    or none (told in the table only). `unit` may be empty; `digits` are decimals shown. `why` is the name of the
    number in its answer; `links` lead to the answers where they are others than those of the rows."""

    label: str
    values: Sequence[Cell]
    draw: str = "none"
    unit: str = ""
    digits: int = 1
    why: str = ""
    links: Sequence[str | None] = ()

    @property
    def heading(self) -> str:
        return f"{self.label} ({self.unit})" if self.unit else self.label

    @property
    def empty(self) -> bool:
        return all(value is None or value == "" for value in self.values)

    @property
    def numeric(self) -> bool:
        return not any(isinstance(value, str) for value in self.values)

    def shown(self, value: Cell) -> str:
        """Write a cell for a reader."""
        if value is None or value == "":
            return "–"
        return value if isinstance(value, str) else plain(round(value, self.digits)).replace("-", "−")


@dataclass(frozen=True)
class Plot:
    """`days` ascend; `weekly`: each is the Monday of a week. `links` lead from a row to its reasons.
    `may_leave_out`: points far from the band are left to the table, so that the picture shows the others."""

    name: str
    title: str
    days: Sequence[dt.date]
    series: Sequence[Series]
    note: str = ""
    weekly: bool = False
    from_zero: bool = False
    may_leave_out: bool = False
    links: Sequence[str | None] = field(default=())

    @property
    def script_id(self) -> str:
        return f"plot-data-{self.name}"

    @property
    def is_empty(self) -> bool:
        return not self.days or all(one.empty for one in self.series if one.draw != "none")

    @property
    def drawn(self) -> list[Series]:
        return [one for one in self.series if one.draw != "none" and not one.empty]

    @property
    def key(self) -> list[tuple[str, int, str]]:
        """Return (how it is drawn, which of its kind, label) for the words under the picture; a band is told once."""
        seen: dict[str, int] = {}
        rows = []
        for one in self.drawn:
            if one.draw == "high":
                continue
            number = seen[one.draw] = seen.get(one.draw, -1) + 1
            rows.append((one.draw, number, one.label))
        return rows

    @property
    def rows(self) -> list[dict[str, Any]]:
        """Return the table's rows, newest first."""
        links = list(self.links) or [None] * len(self.days)
        rows = [
            {
                "day": day,
                "link": links[at],
                "cells": [
                    {
                        "text": one.shown(one.values[at]),
                        "numeric": one.numeric,
                        "why": one.why if one.values[at] is not None else "",
                        "link": one.links[at] if one.links else links[at],
                        "same": not one.links,
                    }
                    for one in self.series
                ],
            }
            for at, day in enumerate(self.days)
        ]
        return rows[::-1]

    @property
    def limits(self) -> tuple[float, float] | None:
        """Return what the picture reaches to beside a band: two of its heights beyond either end; None without a band.

        One load typed with a nought too many would otherwise flatten everything else.
        """
        ends = {name: _numbers(one for one in self.drawn if one.draw == name) for name in ("low", "high")}
        if not self.may_leave_out or not ends["low"] or not ends["high"]:
            return None
        low, high = min(ends["low"]), max(ends["high"])
        return low - 2 * (high - low), high + 2 * (high - low)

    @property
    def outside(self) -> int:
        """How many points lie beyond the limits, and stand in the table only."""
        if self.limits is None:
            return 0
        low, high = self.limits
        return sum(not low <= value <= high for value in _numbers(one for one in self.drawn if one.draw == "points"))

    @property
    def data(self) -> dict[str, Any]:
        """Return what the script draws; days in UTC seconds, gaps as null."""
        return {
            "name": self.name,
            "title": self.title,
            "unit": self.drawn[0].unit if self.drawn else "",
            "weekly": self.weekly,
            "fromZero": self.from_zero,
            "limits": self.limits,
            "days": [int(dt.datetime.combine(day, dt.time(), dt.UTC).timestamp()) for day in self.days],
            "series": [
                {
                    "label": one.label,
                    "draw": one.draw,
                    "values": [None if value is None else round(float(value), one.digits) for value in one.values],
                }
                for one in self.drawn
            ],
        }


def _numbers(series: Iterable[Series]) -> list[float]:
    return [float(value) for one in series for value in one.values if value is not None and value != ""]
