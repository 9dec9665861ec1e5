"""What has to be met, one by one, so that a clash can name its members."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from periodization.draft.request import Request
from periodization.rules import Param, Reason

Kind = Literal[
    "floor",
    "ceiling",
    "minutes",
    "session_cap",
    "sets_most",
    "slots",
    "include",
    "avoid",
    "action",
    "tag",
    "equipment",
    "count_low",
    "count_high",
    "heads",
    "long",
    "spacing",
]


@dataclass(frozen=True, slots=True, order=True)
class Demand:
    """`subject` is a group, day, exercise, joint action, tag or piece of equipment (empty where there is only one such
    demand); `amount` its number, if it has one."""

    kind: Kind
    subject: str = ""
    day: str = ""
    amount: float | None = None

    def reason(self) -> Reason:
        """Return the demand in words."""
        params: dict[str, Param] = {"subject": self.subject, "day": self.day}
        if self.amount is not None:
            params["amount"] = float(self.amount)
        return Reason(f"draft_demand_{self.kind}", params)


def demands_of(request: Request) -> tuple[Demand, ...]:
    """Return every demand of the request, those that a coach would give up first at the front."""
    return tuple(dict.fromkeys([*_wanted(request), *_forbidden(request)]))


def _wanted(request: Request) -> Iterator[Demand]:
    if request.spacing_must:
        yield Demand("spacing", amount=request.spacing_hours)
    for target in request.targets:
        if target.long_must:
            yield Demand("long", target.group)
        if target.heads_must:
            yield Demand("heads", target.group)
    yield Demand("slots", amount=request.slots_per_day)
    yield Demand("sets_most", amount=request.sets[1])
    yield Demand("session_cap", amount=request.session_cap)
    for target in request.targets:
        if target.ceiling_must:
            yield Demand("ceiling", target.group, amount=target.ceiling)
    for count in request.counts:
        yield Demand("count_high", count.group, count.day, count.high)
        yield Demand("count_low", count.group, count.day, count.low)
    for target in request.targets:
        if target.floor_must and target.floor > 0:
            yield Demand("floor", target.group, amount=target.floor)
    for day in request.days:
        yield Demand("minutes", day.id, amount=day.minutes)


def _forbidden(request: Request) -> Iterator[Demand]:
    for exercise in sorted(request.include):
        yield Demand("include", exercise)
    if request.equipment is not None:
        for piece in sorted({one.equipment for one in request.candidates} - request.equipment):
            yield Demand("equipment", piece)
    for exercise in sorted(request.avoid):
        yield Demand("avoid", exercise)
    for limit in sorted(request.limits, key=lambda one: (one.kind, one.name)):
        yield Demand(limit.kind, limit.name)
