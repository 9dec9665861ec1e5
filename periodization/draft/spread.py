"""Rows for groups that are trained again too soon."""

from periodization.draft.demands import Demand
from periodization.draft.model import WeekModel


def add_spacing(model: WeekModel) -> None:
    """Mark the exposures of days that are near each other, and forbid or charge what comes too soon."""
    facts, request = model.facts, model.facts.request
    demand = Demand("spacing", amount=request.spacing_hours)
    must = request.spacing_must and demand in model.active
    if not facts.near or (request.spacing_must and not must):
        return
    exposed = model.exposed
    for day in dict.fromkeys(day for pair in facts.near for day in pair):
        for group in facts.targets:
            exposed[day, group] = _exposure(model, day, group)
    for first, second in facts.near:
        for group, factor in facts.factor.items():
            parts = {exposed[first, group]: 1.0, exposed[second, group]: 1.0}
            if not must:
                parts[model.linear.column(-request.weights.spacing * factor, high=1.0)] = -1.0
            model.linear.row(parts, high=1.0)


def _exposure(model: WeekModel, day: str, group: str) -> int:
    """Return a column that is 1 when the group is trained directly on the day."""
    column = model.linear.column(high=1.0)
    for key, use in model.use.items():
        if key[0] == day and group in model.facts.exercises[key[1]].direct:
            model.linear.row({use: 1.0, column: -1.0}, high=0.0)
    return column
