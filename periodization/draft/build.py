"""Build a week's integer program from a request's facts: slots and day bounds here, the other rows by their modules.

docs/methods/draft.md writes it as formulas. Demands that are not in `active` are left out: so clashes are found.
"""

from collections.abc import Collection

from periodization.draft.demands import Demand, demands_of
from periodization.draft.facts import Facts
from periodization.draft.goals import add_goals
from periodization.draft.model import WeekModel
from periodization.draft.spread import add_spacing
from periodization.draft.validate import MOST_SETS
from periodization.draft.volume_rows import add_day_volumes, add_week_volumes


def build(facts: Facts, active: Collection[Demand] | None = None) -> WeekModel:
    """Return the model under the `active` demands (None: all of the request's)."""
    model = WeekModel(facts, frozenset(demands_of(facts.request) if active is None else active))
    _add_slots(model)
    _add_day_bounds(model)
    add_day_volumes(model)
    add_week_volumes(model)
    add_goals(model)
    add_spacing(model)
    return model


def _add_slots(model: WeekModel) -> None:
    request, linear = model.facts.request, model.linear
    most = Demand("sets_most", amount=request.sets[1])
    spare = (request.sets[1] if most in model.active else MOST_SETS) - request.sets[0]
    for day in request.days:
        for one in model.facts.exercises.values():
            barred = one.barred_by & model.active
            # What earns nothing and was not asked for can only cost, so it needs no columns.
            if (barred or not one.credit) and one.id not in request.include:
                continue
            key = (day.id, one.id)
            gain = -request.weights.setup * one.setup_minutes - one.loss * request.sets[0]
            model.use[key] = linear.column(gain, high=0.0 if barred else 1.0, whole=True)
            model.more[key] = linear.column(-one.loss, high=0.0 if barred else spare, whole=True)
            if spare and not barred:
                linear.row({model.more[key]: 1.0, model.use[key]: -float(spare)}, high=0.0)
            if most not in model.active:
                model.most(most, {model.more[key]: 1.0}, request.sets[1] - request.sets[0])
    for exercise in sorted(request.include):
        if Demand("include", exercise) in model.active:
            linear.row({model.use[day.id, exercise]: 1.0 for day in request.days}, low=1.0)


def _add_day_bounds(model: WeekModel) -> None:
    request, facts = model.facts.request, model.facts
    for day in request.days:
        today = {key: facts.exercises[key[1]] for key in model.use if key[0] == day.id}
        seconds: dict[int, float] = {}
        for key, one in today.items():
            seconds |= model.sets_row(key, one.set_seconds)
            seconds[model.use[key]] += one.slot_seconds
        model.most(Demand("minutes", day.id, amount=day.minutes), seconds, facts.budgets[day.id])
        slots = {model.use[key]: 1.0 for key in today}
        model.most(Demand("slots", amount=request.slots_per_day), slots, request.slots_per_day)
        for count in request.counts:
            if count.day == day.id:
                direct = {model.use[key]: 1.0 for key, one in today.items() if count.group in one.direct}
                model.least(Demand("count_low", count.group, count.day, count.low), direct, count.low)
                model.most(Demand("count_high", count.group, count.day, count.high), direct, count.high)
