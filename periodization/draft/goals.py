"""Rows for what counts once a week: heads covered, groups loaded long, joint actions; and for stations and repeats."""

from collections import defaultdict

from periodization.draft.demands import Demand
from periodization.draft.model import WeekModel

Goal = tuple[str, str]


def add_goals(model: WeekModel) -> None:
    """Add every goal that counts once, and the costs that count once a day or once more."""
    _add_once_a_week(model)
    _add_stations(model)
    _add_repeats(model)


def _add_once_a_week(model: WeekModel) -> None:
    facts, weights = model.facts, model.facts.request.weights
    servants: dict[Goal, list[int]] = defaultdict(list)
    worth: dict[Goal, float] = {}
    for (_, exercise), column in model.use.items():
        one = facts.exercises[exercise]
        for head in one.covers:
            servants["heads", head].append(column)
            worth["heads", head] = weights.heads * facts.factor[facts.group_of_head[head]]
        for group in one.long:
            servants["long", group].append(column)
            worth["long", group] = weights.long * facts.factor[group]
        for group, action in one.variety:
            servants["variety", f"{group}/{action}"].append(column)
            worth["variety", f"{group}/{action}"] = weights.variety * facts.factor[group]
    musts = _musts(model)
    # Goals that the same exercises serve are met together: one row for all of them.
    together: dict[tuple[tuple[int, ...], bool], float] = defaultdict(float)
    for goal in sorted(set(servants) | musts):
        together[tuple(servants[goal]), goal in musts] += worth.get(goal, 0.0)
    for (columns, must), points in together.items():
        met = model.linear.column(points, low=1.0 if must else 0.0, high=1.0)
        model.linear.row({met: 1.0, **dict.fromkeys(columns, -1.0)}, high=0.0)


def _musts(model: WeekModel) -> set[Goal]:
    heads = {
        ("heads", head) for head, group in model.facts.group_of_head.items() if Demand("heads", group) in model.active
    }
    return heads | {("long", group) for group in model.facts.targets if Demand("long", group) in model.active}


def _add_stations(model: WeekModel) -> None:
    stations: dict[tuple[str, str], list[int]] = defaultdict(list)
    for (day, exercise), column in model.use.items():
        stations[day, model.facts.exercises[exercise].equipment].append(column)
    for columns in stations.values():
        taken = model.linear.column(-model.facts.request.weights.station, high=1.0)
        for column in columns:
            model.linear.row({column: 1.0, taken: -1.0}, high=0.0)


def _add_repeats(model: WeekModel) -> None:
    weight = model.facts.request.weights.repeat
    uses: dict[str, list[int]] = defaultdict(list)
    for (_, exercise), column in model.use.items():
        uses[exercise].append(column)
    for columns in uses.values():
        if len(columns) > 1 and weight:
            # Every use costs, and the first gives it back.
            for column in columns:
                model.linear.gain[column] -= weight
            first = model.linear.column(weight, high=1.0)
            model.linear.row({first: 1.0, **dict.fromkeys(columns, -1.0)}, high=0.0)
