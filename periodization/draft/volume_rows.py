"""Rows for fractional sets: a day's by group, and a week's against floor, aim and ceiling."""

from math import inf

from periodization.draft.demands import Demand
from periodization.draft.model import WeekModel
from periodization.draft.score import aim


def add_day_volumes(model: WeekModel) -> None:
    """Add a column of fractional sets by (day, group), held under the session cap."""
    request, facts = model.facts.request, model.facts
    cap = Demand("session_cap", amount=request.session_cap)
    capped = cap in model.active
    for day in request.days:
        for group in facts.targets:
            total = model.linear.column(high=request.session_cap if capped else inf)
            model.volume[day.id, group] = total
            parts = {total: -1.0}
            for key in model.use:
                credit = facts.exercises[key[1]].credit.get(group, 0.0)
                if key[0] == day.id and credit:
                    parts |= model.sets_row(key, credit)
            model.linear.row(parts, 0.0, 0.0)
            if not capped:
                model.most(cap, {total: 1.0}, request.session_cap)


def add_week_volumes(model: WeekModel) -> None:
    """Split each group's week: volume = basic (to the floor) + earning (to the aim) + idle (to the ceiling) + over."""
    weights, linear = model.facts.request.weights, model.linear
    for group, target in model.facts.targets.items():
        factor, middle = model.facts.factor[group], aim(model.facts, group)
        floor = Demand("floor", group, amount=target.floor)
        ceiling = Demand("ceiling", group, amount=target.ceiling)
        parts = {model.volume[day.id, group]: 1.0 for day in model.facts.request.days}
        must = target.floor_must and floor in model.active
        basic = linear.column(weights.floor * factor, low=target.floor if must else 0.0, high=target.floor)
        parts[basic] = -1.0
        parts[linear.column(weights.volume * factor, high=middle - target.floor)] = -1.0
        parts[linear.column(high=target.ceiling - middle)] = -1.0
        if target.floor_must and not must and target.floor > 0:
            linear.row({basic: 1.0, model.missed(floor): 1.0}, low=target.floor)
        if not target.ceiling_must:
            parts[linear.column(-weights.over * factor)] = -1.0
        elif ceiling not in model.active:
            parts[model.missed(ceiling)] = -1.0
        linear.row(parts, 0.0, 0.0)
