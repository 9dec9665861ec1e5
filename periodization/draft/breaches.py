"""Which demands a week breaks, counted directly: the last word before a draft leaves the house."""

from collections import Counter, defaultdict
from collections.abc import Iterator

from periodization.draft.demands import Demand, demands_of
from periodization.draft.facts import Facts
from periodization.draft.score import HAIR, Sets, exposures, volume, volume_by_day


def breaches(facts: Facts, sets: Sets) -> list[Demand]:
    """Return the demands that the week breaks, in the order of `demands_of`."""
    found = set(_of_exercises(facts, sets)) | set(_of_days(facts, sets)) | set(_of_groups(facts, sets))
    return [demand for demand in demands_of(facts.request) if demand in found]


def model_seconds(facts: Facts, sets: Sets) -> dict[str, float]:
    """Return each day's seconds as the model counts them: never less than the session will take unpaired, whatever the
    order (docs/methods/draft.md)."""
    seconds: dict[str, float] = defaultdict(float)
    for (day, exercise), amount in sets.items():
        one = facts.exercises[exercise]
        seconds[day] += one.set_seconds * amount + one.slot_seconds
    return seconds


def _of_exercises(facts: Facts, sets: Sets) -> Iterator[Demand]:
    request = facts.request
    used = {exercise for _, exercise in sets}
    for exercise in used:
        yield from facts.exercises[exercise].barred_by
    for exercise in request.include - used:
        yield Demand("include", exercise)
    if any(amount > request.sets[1] for amount in sets.values()):
        yield Demand("sets_most", amount=request.sets[1])


def _of_days(facts: Facts, sets: Sets) -> Iterator[Demand]:
    request = facts.request
    seconds = model_seconds(facts, sets)
    for day in request.days:
        if seconds[day.id] > facts.budgets[day.id] + HAIR:
            yield Demand("minutes", day.id, amount=day.minutes)
    if any(count > request.slots_per_day for count in Counter(day for day, _ in sets).values()):
        yield Demand("slots", amount=request.slots_per_day)
    if any(amount > request.session_cap + HAIR for amount in volume_by_day(facts, sets).values()):
        yield Demand("session_cap", amount=request.session_cap)
    direct = Counter((day, group) for day, exercise in sets for group in facts.exercises[exercise].direct)
    for count in request.counts:
        if direct[count.day, count.group] < count.low:
            yield Demand("count_low", count.group, count.day, count.low)
        if direct[count.day, count.group] > count.high:
            yield Demand("count_high", count.group, count.day, count.high)


def _of_groups(facts: Facts, sets: Sets) -> Iterator[Demand]:
    amounts = volume(facts, sets)
    used = [facts.exercises[exercise] for _, exercise in sets]
    covered = {head for one in used for head in one.covers}
    long = {group for one in used for group in one.long}
    for group, target in facts.targets.items():
        if target.floor_must and amounts[group] < target.floor - HAIR:
            yield Demand("floor", group, amount=target.floor)
        if target.ceiling_must and amounts[group] > target.ceiling + HAIR:
            yield Demand("ceiling", group, amount=target.ceiling)
        if target.heads_must and {h for h, g in facts.group_of_head.items() if g == group} - covered:
            yield Demand("heads", group)
        if target.long_must and group not in long:
            yield Demand("long", group)
    if facts.request.spacing_must:
        exposed = exposures(facts, sets)
        if any((a, g) in exposed and (b, g) in exposed for a, b in facts.near for g in facts.targets):
            yield Demand("spacing", amount=facts.request.spacing_hours)
