"""Change a request by one relaxation, as the clash proposes it."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from math import ceil, floor
from typing import Any

from programs.services.draft_ask import Ask, AskedTarget
from programs.services.draft_request import day_number
from programs.services.limits import NOT_JUDGED


def can_apply(relaxation: Mapping[str, Any]) -> bool:
    """Say whether a key can apply it. What nobody judged stays closed while there are limits: that needs a look."""
    demand = relaxation["demand"]
    return not (demand["kind"] == "tag" and demand["subject"] == NOT_JUDGED)


def relaxed(ask: Ask, relaxation: Mapping[str, Any]) -> Ask:
    """Return the request with the one demand given up, or changed to what would be enough."""
    demand, enough = relaxation["demand"], relaxation["enough"]
    kind, subject = demand["kind"], demand["subject"]
    if kind in _TARGETS:
        target = _TARGETS[kind](ask.targets[subject], demand, enough)
        return replace(ask, targets={**ask.targets, subject: target})
    return _WHOLE[kind](ask, subject, enough)


def _floor(target: AskedTarget, demand: Mapping[str, Any], enough: float | None) -> AskedTarget:
    if enough is None:
        return replace(target, floor_must=False)
    # Rounded down it stays possible.
    return replace(target, floor=max(0.0, floor(enough * 100 + 1e-6) / 100))


def _ceiling(target: AskedTarget, demand: Mapping[str, Any], enough: float | None) -> AskedTarget:
    return target if enough is None else replace(target, ceiling=ceil(enough * 100 - 1e-6) / 100)


def _count(low: bool) -> Callable[[AskedTarget, Mapping[str, Any], float | None], AskedTarget]:
    def changed(target: AskedTarget, demand: Mapping[str, Any], enough: float | None) -> AskedTarget:
        counts = list(target.exercises)
        place = day_number(demand["day"])
        few, many = counts[place]
        wanted = 0 if enough is None else enough
        counts[place] = (max(0, floor(wanted + 1e-6)), many) if low else (few, ceil(wanted - 1e-6))
        return replace(target, exercises=tuple(counts))

    return changed


_TARGETS: dict[str, Callable[[AskedTarget, Mapping[str, Any], float | None], AskedTarget]] = {
    "floor": _floor,
    "ceiling": _ceiling,
    "count_low": _count(low=True),
    "count_high": _count(low=False),
    "heads": lambda target, demand, enough: replace(target, heads_must=False),
    "long": lambda target, demand, enough: replace(target, long_must=False),
}


def _minutes(ask: Ask, subject: str, enough: float | None) -> Ask:
    days = list(ask.days)
    place = day_number(subject)
    days[place] = replace(days[place], minutes=ceil(enough or days[place].minutes))
    return replace(ask, days=tuple(days))


def _without(field: str, number: bool = True) -> Callable[[Ask, str, float | None], Ask]:
    def changed(ask: Ask, subject: str, enough: float | None) -> Ask:
        gone = int(subject) if number else subject
        return replace(ask, **{field: tuple(one for one in getattr(ask, field) if one != gone)})

    return changed


_WHOLE: dict[str, Callable[[Ask, str, float | None], Ask]] = {
    "minutes": _minutes,
    "session_cap": lambda ask, subject, enough: replace(ask, session_cap=float(ceil((enough or 0) - 1e-6))),
    "sets_most": lambda ask, subject, enough: replace(ask, sets=(ask.sets[0], ceil((enough or 0) - 1e-6))),
    "slots": lambda ask, subject, enough: replace(ask, slots_per_day=ceil((enough or 0) - 1e-6)),
    "spacing": lambda ask, subject, enough: replace(ask, spacing_must=False),
    "include": _without("include"),
    "avoid": _without("avoid"),
    "action": _without("actions", number=False),
    "tag": _without("limits", number=False),
    "equipment": lambda ask, subject, enough: replace(ask, equipment=(*(ask.equipment or ()), int(subject))),
}
