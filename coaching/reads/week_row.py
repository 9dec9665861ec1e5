"""One client's week as the pages show it."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from coaching.models import WeekSummary
from coaching.reads.lifts import Lift, main_lifts
from coaching.recompute.urgency import outside
from programs.sentences import Words

# From this sum on a client "needs attention": a question, a stop, an act, or more than one thing to watch.
ATTENTION = 12
# Under this mean distance effort is called as prescribed: reports err by about one repetition (Hackett 2017).
EFFORT_AS_PRESCRIBED = 0.5


@dataclass(frozen=True)
class GroupRow:
    """A muscle group's week. `shown` is what is judged: done, with what is still ahead while the week runs."""

    slug: str
    name: str
    planned: float
    done: float
    ahead: float
    floor: float | None
    ceiling: float | None
    state: str  # under, over, inside, free
    source: str = ""  # "coach" or "chosen"

    @property
    def shown(self) -> float:
        return self.done + self.ahead

    @property
    def idle(self) -> bool:
        """Nothing is planned, done or asked for."""
        return not (self.planned or self.done or self.ahead or self.floor)


def group_rows(volume: Mapping[str, Any], words: Words) -> list[GroupRow]:
    """Return the week's groups, those outside their range first, then by name."""
    under, over = outside(dict(volume))
    rows = [
        GroupRow(
            slug,
            words.groups.get(slug, slug),
            row["planned"],
            row["done"],
            row["ahead"],
            row["floor"],
            row["ceiling"],
            "under" if slug in under else "over" if slug in over else "inside" if row["aimed"] else "free",
            row.get("source", ""),
        )
        for slug, row in volume["groups"].items()
    ]
    order = {"over": 0, "under": 1, "inside": 2, "free": 3}
    return sorted(rows, key=lambda row: (order[row.state], row.name))


def effort_state(compliance: Mapping[str, Any]) -> tuple[str, float]:
    """Return (harder, easier, kept or unknown, distance in repetitions from the prescribed range)."""
    gap = compliance["mean_rir_gap"]
    if gap is None:
        return "unknown", 0.0
    if abs(gap) < EFFORT_AS_PRESCRIBED:
        return "kept", abs(gap)
    return ("harder" if gap < 0 else "easier"), abs(gap)


@dataclass(frozen=True)
class WeekRow:
    """A WeekSummary with its words."""

    summary: WeekSummary
    groups: list[GroupRow]

    @property
    def running(self) -> bool:
        return self.summary.volume["running"]

    @property
    def outside(self) -> list[GroupRow]:
        return [row for row in self.groups if row.state in ("under", "over")]

    @property
    def idle(self) -> list[GroupRow]:
        return [row for row in self.groups if row.idle]

    @property
    def effort(self) -> str:
        return effort_state(self.summary.compliance)[0]

    @property
    def effort_gap(self) -> float:
        return round(effort_state(self.summary.compliance)[1], 1)

    @property
    def lifts(self) -> list[Lift]:
        return main_lifts(self.summary)

    @property
    def check_ins(self) -> list[dict[str, Any]]:
        return self.summary.check_ins.get("days", [])

    @property
    def below(self) -> int:
        """Days on which the check-in was below the client's own usual."""
        return sum(1 for one in self.check_ins if one["state"] == "below")

    @property
    def checked_in_on(self) -> dt.date | None:
        return dt.date.fromisoformat(self.check_ins[-1]["day"]) if self.check_ins else None

    @property
    def ends(self) -> dt.date:
        return self.summary.week + dt.timedelta(days=6)


def week_row(summary: WeekSummary | None, words: Words) -> WeekRow | None:
    """Return the row of a summary; None stays None."""
    return None if summary is None else WeekRow(summary, group_rows(summary.volume, words))
