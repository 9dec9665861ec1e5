"""The drafting problem written down a second time, from the words of docs/methods/draft.md, for another solver.

It shares the request and its looked-up facts with the product, and neither rows, columns, search nor bound. Whole
numbers only: fractional sets are counted in quarters, points in millionths.
"""

from collections import defaultdict
from dataclasses import dataclass

from ortools.sat.python import cp_model

from periodization.draft.facts import Facts, gather
from periodization.draft.request import Request

QUARTER, MILLION = 4, 1_000_000


@dataclass(frozen=True)
class SecondOpinion:
    """Points of the best week found and a bound on all weeks; `sets` by (day, exercise). No week: None."""

    points: float | None
    bound: float | None
    sets: dict[tuple[str, str], int]


def draft_by_cp_sat(request: Request, gap: float, seconds: float) -> SecondOpinion:
    """Draft the week with CP-SAT, until within `gap` or for `seconds`."""
    writer = _Writer(gather(request))
    solver = _solver(seconds)
    solver.parameters.relative_gap_limit = gap
    status = solver.solve(writer.model)
    if status == cp_model.INFEASIBLE:
        return SecondOpinion(None, None, {})
    bound = solver.best_objective_bound / MILLION
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return SecondOpinion(None, bound, {})
    sets = {key: solver.value(number) for key, number in writer.sets.items() if solver.value(number)}
    return SecondOpinion(solver.objective_value / MILLION, bound, sets)


def week_by_cp_sat(request: Request, seconds: float) -> bool | None:
    """Return whether there is any week at all; None when that was not found out in `seconds`."""
    writer = _Writer(gather(request))
    writer.model.clear_objective()
    status = _solver(seconds).solve(writer.model)
    return {cp_model.OPTIMAL: True, cp_model.FEASIBLE: True, cp_model.INFEASIBLE: False}.get(status)


def _solver(seconds: float) -> cp_model.CpSolver:
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.random_seed = 1
    # Without its full linear relaxation the bound stays far away, however many workers there are.
    solver.parameters.num_workers = 1
    solver.parameters.linearization_level = 2
    return solver


class _Writer:
    def __init__(self, facts: Facts) -> None:
        self.facts, self.request, self.model = facts, facts.request, cp_model.CpModel()
        self.sets: dict[tuple[str, str], cp_model.IntVar] = {}
        self.used: dict[tuple[str, str], cp_model.IntVar] = {}
        self.points: list[cp_model.LinearExpr] = []
        self.write_choices()
        self.write_days()
        self.write_volumes()
        self.write_goals()
        self.write_spacing()
        self.model.maximize(sum(self.points))

    def earn(self, points: float, what: cp_model.LinearExpr) -> None:
        self.points.append(round(points * MILLION) * what)

    def any_of(self, what: list[cp_model.IntVar]) -> cp_model.IntVar:
        """Return a truth value: whether at least one of `what` holds."""
        result = self.model.new_bool_var("")
        self.model.add_max_equality(result, what) if what else self.model.add(result == 0)
        return result

    def write_choices(self) -> None:
        low, high = self.request.sets
        for day in self.request.days:
            for one in self.facts.exercises.values():
                key = (day.id, one.id)
                self.sets[key] = self.model.new_int_var_from_domain(
                    cp_model.Domain.from_intervals([[0, 0], [low, high]]), f"{key}"
                )
                self.used[key] = self.model.new_bool_var("")
                self.model.add(self.sets[key] >= 1).only_enforce_if(self.used[key])
                self.model.add(self.sets[key] == 0).only_enforce_if(~self.used[key])
                if one.barred_by:
                    self.model.add(self.sets[key] == 0)
                self.earn(-one.loss, self.sets[key])
                self.earn(-self.request.weights.setup * one.setup_minutes, self.used[key])
        for exercise, uses in self.by_exercise().items():
            at_all = self.any_of(uses)
            if exercise in self.request.include:
                self.model.add(at_all == 1)
            self.earn(-self.request.weights.repeat, sum(uses) - at_all)

    def by_exercise(self) -> dict[str, list[cp_model.IntVar]]:
        result = defaultdict(list)
        for (_, exercise), used in self.used.items():
            result[exercise].append(used)
        return result

    def write_days(self) -> None:
        for day in self.request.days:
            today = {e: (self.sets[day.id, e], self.used[day.id, e]) for e in self.facts.exercises}
            hundredths = [
                round(100 * self.facts.exercises[e].set_seconds) * sets
                + round(100 * self.facts.exercises[e].slot_seconds) * used
                for e, (sets, used) in today.items()
            ]
            self.model.add(sum(hundredths) <= round(100 * self.facts.budgets[day.id]))
            self.model.add(sum(used for _, used in today.values()) <= self.request.slots_per_day)
            for piece in {one.equipment for one in self.facts.exercises.values()}:
                users = [used for e, (_, used) in today.items() if self.facts.exercises[e].equipment == piece]
                self.earn(-self.request.weights.station, self.any_of(users))
            for count in self.request.counts:
                if count.day == day.id:
                    users = [used for e, (_, used) in today.items() if count.group in self.facts.exercises[e].direct]
                    self.model.add_linear_constraint(sum(users), count.low, count.high)

    def quarters(self, day: str, group: str) -> cp_model.LinearExpr:
        credit = {e: one.credit.get(group, 0) for e, one in self.facts.exercises.items()}
        return sum(round(QUARTER * share) * self.sets[day, e] for e, share in credit.items())

    def write_volumes(self) -> None:
        weights = self.request.weights
        for group, target in self.facts.targets.items():
            factor = self.facts.factor[group]
            days = [self.quarters(day.id, group) for day in self.request.days]
            for amount in days:
                self.model.add(amount <= int(QUARTER * self.request.session_cap))
            week, most = sum(days), int(QUARTER * self.request.session_cap) * len(days)
            floor, ceiling = int(QUARTER * target.floor), int(QUARTER * target.ceiling)
            aim = (floor + ceiling) // 2 if target.aim is None else int(QUARTER * target.aim)
            assert target.aim is not None or (floor + ceiling) % 2 == 0
            up_to_floor, up_to_aim = (self.model.new_int_var(0, most, "") for _ in range(2))
            self.model.add_min_equality(up_to_floor, [week, floor])
            self.model.add_min_equality(up_to_aim, [week, aim])
            self.earn(weights.floor * factor / QUARTER, up_to_floor)
            over_floor = self.model.new_int_var(0, most, "")
            self.model.add_max_equality(over_floor, [0, up_to_aim - floor])
            self.earn(weights.volume * factor / QUARTER, over_floor)
            if target.floor_must:
                self.model.add(week >= floor)
            if target.ceiling_must:
                self.model.add(week <= ceiling)
            else:
                over = self.model.new_int_var(0, most, "")
                self.model.add_max_equality(over, [0, week - ceiling])
                self.earn(-weights.over * factor / QUARTER, over)

    def write_goals(self) -> None:
        weights, facts, uses = self.request.weights, self.facts, self.by_exercise()
        servants = defaultdict(list)
        for exercise, one in facts.exercises.items():
            for head in one.covers:
                servants["heads", head, facts.group_of_head[head]] += uses[exercise]
            for group in one.long:
                servants["long", group, group] += uses[exercise]
            for group, action in one.variety:
                servants["variety", action, group] += uses[exercise]
        for (kind, _, group), users in servants.items():
            self.earn(getattr(weights, kind) * facts.factor[group], self.any_of(users))
        for group, target in facts.targets.items():
            if target.heads_must:
                for head in (h for h, g in facts.group_of_head.items() if g == group):
                    self.model.add(sum(servants["heads", head, group]) >= 1)
            if target.long_must:
                self.model.add(sum(servants["long", group, group]) >= 1)

    def write_spacing(self) -> None:
        for group, factor in self.facts.factor.items():
            trained = {}
            for day in {day for pair in self.facts.near for day in pair}:
                direct = [e for e, one in self.facts.exercises.items() if group in one.direct]
                trained[day] = self.any_of([self.used[day, e] for e in direct])
            for first, second in self.facts.near:
                both = self.model.new_bool_var("")
                self.model.add_min_equality(both, [trained[first], trained[second]])
                if self.request.spacing_must:
                    self.model.add(both == 0)
                else:
                    self.earn(-self.request.weights.spacing * factor, both)
