"""Guess which groups share a day, so that no group comes back too soon: a good place to start looking, nothing more.

Days that are not near each other form a class; each group is given to one class. Groups that the same exercises train
go together, and the classes are filled evenly. The solver is then free to find better.
"""

from collections import defaultdict
from itertools import combinations

from periodization.draft.facts import Facts
from periodization.draft.model import WeekModel

# Chosen: how much an even filling of the classes counts against keeping groups together.
EVEN = 2.0


def day_classes(facts: Facts) -> list[list[str]]:
    """Return the days in as few classes as the calendar's order gives, none holding two days that are near."""
    near = {frozenset(pair) for pair in facts.near}
    classes: list[list[str]] = []
    for day in sorted(facts.request.days, key=lambda one: one.weekday):
        for members in classes:
            if not any(frozenset((day.id, other)) in near for other in members):
                members.append(day.id)
                break
        else:
            classes.append([day.id])
    return classes


def split_groups(model: WeekModel, values: list[float]) -> dict[str, int]:
    """Return the class of each group. `values` solve the model with fractions allowed."""
    facts = model.facts
    classes = day_classes(facts)
    load, bond = _ties(model, values)
    total = sum(load.values()) or 1.0
    budgets = [sum(facts.budgets[day] for day in days) for days in classes]
    room = [budget / sum(budgets) for budget in budgets]

    def price(choice: dict[str, int]) -> float:
        cut = sum(strength for (a, b), strength in bond.items() if choice[a] != choice[b])
        filled = [sum(load[g] for g, c in choice.items() if c == place) / total for place in range(len(classes))]
        return cut + EVEN * sum(abs(have - want) for have, want in zip(filled, room, strict=True)) * len(facts.targets)

    choice = dict.fromkeys(facts.targets, 0)
    best, better = price(choice), True
    while better:
        better = False
        for changed in _moves(choice, len(classes)):
            if (now := price(changed)) < best - 1e-9:
                choice, best, better = changed, now, True
                break
    return choice


def _moves(choice: dict[str, int], classes: int) -> list[dict[str, int]]:
    one = [{**choice, group: place} for group in choice for place in range(classes) if place != choice[group]]
    two = [{**choice, a: choice[b], b: choice[a]} for a, b in combinations(choice, 2) if choice[a] != choice[b]]
    return one + two


def _ties(model: WeekModel, values: list[float]) -> tuple[dict[str, float], dict[tuple[str, str], float]]:
    """Return each group's seconds, and how strongly exercises tie two groups together."""
    load: dict[str, float] = defaultdict(float)
    bond: dict[tuple[str, str], float] = defaultdict(float)
    for key, column in model.use.items():
        one = model.facts.exercises[key[1]]
        used = values[column]
        for group in one.direct:
            load[group] += used * one.set_seconds / len(one.direct)
        for pair in combinations(sorted(one.direct), 2):
            bond[pair] += used
    return load, bond
