"""What a person is shown of a table that was read, before anything is saved. Kept with a long table's run."""

import dataclasses
import datetime as dt
from typing import Any

from logbook.services.past_plan import PastPlan
from programs.sheets.problems import Problem, Unknown


@dataclasses.dataclass(frozen=True, slots=True)
class PastSeen:
    """The counts of what is new, and what is wrong or asked about (services/past_plan.py)."""

    layout: str
    is_right: bool
    nothing_new: bool
    asks_order: bool
    asks_sure: bool
    open_order: bool
    units_open: bool
    heavy: str
    sets: int
    sessions: int
    exercises: int
    check_ins: int
    masses: int
    first_day: dt.date | None
    last_day: dt.date | None
    headings_wrong: list[str]
    notes: list[str]
    wrong: int
    problems: list[Problem]
    unknown: list[Unknown]
    unknown_more: int

    @property
    def new(self) -> int:
        return self.sets + self.check_ins + self.masses

    @property
    def dates(self) -> list[Problem]:
        """No cell of the past is a range that a spreadsheet made a date of."""
        return []


def seen_of(plan: PastPlan) -> PastSeen:
    """Count what a plan would add, and keep what is wrong with it."""
    found, new = plan.found, plan.new
    return PastSeen(
        layout=plan.table.layout.key,
        is_right=plan.is_right,
        nothing_new=plan.nothing_new,
        asks_order=plan.asks_order,
        asks_sure=plan.asks_sure,
        open_order=bool(found and found.open_order),
        units_open=bool(found and found.units_open),
        heavy=plan.heavy,
        sets=len(plan.sets.lines),
        sessions=plan.sessions,
        exercises=plan.exercises,
        check_ins=len(plan.days.check_ins),
        masses=len(plan.days.masses),
        first_day=plan.first_day if new else None,
        last_day=plan.last_day if new else None,
        headings_wrong=plan.headings_wrong,
        notes=plan.notes,
        wrong=plan.wrong,
        problems=plan.problems,
        unknown=plan.unknown,
        unknown_more=plan.unknown_more,
    )


def seen_to_json(seen: PastSeen) -> dict[str, Any]:
    told = dataclasses.asdict(seen)
    return told | {key: told[key] and told[key].isoformat() for key in ("first_day", "last_day")}


def seen_from_json(told: dict[str, Any]) -> PastSeen:
    days = {key: told[key] and dt.date.fromisoformat(told[key]) for key in ("first_day", "last_day")}
    lists: dict[str, Any] = {
        "problems": [Problem(**one) for one in told["problems"]],
        "unknown": [Unknown(**one) for one in told["unknown"]],
    }
    return PastSeen(**(told | days | lists))
