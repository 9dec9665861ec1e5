"""The worth of a week, counted directly. The model says the same in rows and columns; the tests hold them together."""

from collections import defaultdict
from collections.abc import Mapping
from math import fsum

from periodization.draft.facts import Facts

# Sets by (day, exercise); never 0.
Sets = Mapping[tuple[str, str], int]
# (what, about which) -> points; costs are negative.
Terms = dict[tuple[str, str], float]
# Fractional sets are sums of credits: a hair under one set is one set.
HAIR = 1e-3


def score(facts: Facts, sets: Sets) -> float:
    """Return the points of a week."""
    return fsum(terms(facts, sets).values())


def terms(facts: Facts, sets: Sets) -> Terms:
    """Return the points of a week by what earns or costs them. Not checked here: whether any demand is met."""
    result: dict[tuple[str, str], float] = defaultdict(float)
    _add_volume(facts, sets, result)
    _add_goals(facts, sets, result)
    _add_costs(facts, sets, result)
    _add_spacing(facts, sets, result)
    return {key: points for key, points in result.items() if points}


def volume_by_day(facts: Facts, sets: Sets) -> dict[tuple[str, str], float]:
    """Return fractional sets by (day, group)."""
    result: dict[tuple[str, str], float] = defaultdict(float)
    for (day, exercise), amount in sets.items():
        for group, credit in facts.exercises[exercise].credit.items():
            result[day, group] += credit * amount
    return result


def volume(facts: Facts, sets: Sets) -> dict[str, float]:
    """Return a week's fractional sets by group with a target."""
    result = dict.fromkeys(facts.targets, 0.0)
    for (_, group), amount in volume_by_day(facts, sets).items():
        result[group] += amount
    return result


def aim(facts: Facts, group: str) -> float:
    target = facts.targets[group]
    return (target.floor + target.ceiling) / 2 if target.aim is None else target.aim


def _add_volume(facts: Facts, sets: Sets, result: Terms) -> None:
    weights = facts.request.weights
    for group, amount in volume(facts, sets).items():
        target, factor = facts.targets[group], facts.factor[group]
        earning = min(amount, aim(facts, group)) - target.floor
        result["volume", group] = weights.volume * factor * max(0.0, earning)
        result["floor", group] = weights.floor * factor * min(amount, target.floor)
        if not target.ceiling_must:
            result["over", group] = -weights.over * factor * max(0.0, amount - target.ceiling)


def _add_goals(facts: Facts, sets: Sets, result: Terms) -> None:
    weights = facts.request.weights
    used = [facts.exercises[exercise] for exercise in {exercise for _, exercise in sets}]
    for one in used:
        for head in one.covers:
            result["heads", head] = weights.heads * facts.factor[facts.group_of_head[head]]
        for group in one.long:
            result["long", group] = weights.long * facts.factor[group]
        for group, action in one.variety:
            result["variety", f"{group}/{action}"] = weights.variety * facts.factor[group]


def _add_costs(facts: Facts, sets: Sets, result: Terms) -> None:
    weights = facts.request.weights
    seen: set[str] = set()
    for (day, exercise), amount in sets.items():
        one = facts.exercises[exercise]
        result["grade", exercise] -= one.loss * amount
        result["setup", day] -= weights.setup * one.setup_minutes
        result["station", f"{day}/{one.equipment}"] = -weights.station
        if exercise in seen:
            result["repeat", exercise] -= weights.repeat
        seen.add(exercise)


def _add_spacing(facts: Facts, sets: Sets, result: Terms) -> None:
    if facts.request.spacing_must or not facts.near:
        return
    exposed = exposures(facts, sets)
    for first, second in facts.near:
        for group, factor in facts.factor.items():
            if (first, group) in exposed and (second, group) in exposed:
                result["spacing", f"{group}/{first}/{second}"] = -facts.request.weights.spacing * factor


def exposures(facts: Facts, sets: Sets) -> set[tuple[str, str]]:
    """Return the (day, group) trained directly: a row is no arm day, though it trains the elbow flexors a little."""
    return {(day, group) for day, exercise in sets for group in facts.exercises[exercise].direct}
