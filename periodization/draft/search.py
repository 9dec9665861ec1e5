"""Find a week and prove how far it can be from the best. The last stage alone would do, but slowly.

1. With fractions of sets allowed: a bound on every week, and the exercises worth looking at.
2. The best week of those exercises on those days alone, with groups spread over the days by a guess.
3. The best week of those exercises on any day.
4. The whole model. Each stage starts from the week before it and stops when the bound says that it is good enough.
"""

from collections.abc import Callable, Iterator
from math import inf

from periodization.draft.highs import Cancelled, Limits, Progress, Solution, Tell, relax, solve
from periodization.draft.linear import LinearModel
from periodization.draft.model import WeekModel
from periodization.draft.request import Stop
from periodization.draft.split import day_classes, split_groups

# Chosen from the bench: the share of the whole time that each narrow stage may take.
NARROW_SHARE = 0.3
TINY = 1e-6


def search(model: WeekModel, stop: Stop, tell: Tell | None = None, cancelled: Cancelled | None = None) -> Solution:
    """Return the best week found within the time, with the smallest bound that was proved."""
    relaxed = relax(model.linear, Limits(stop.gap, stop.seconds, stop.seed))
    if relaxed.ended != "within_gap" or relaxed.values is None:
        return Solution(relaxed.ended, None, -inf, inf, relaxed.seconds)
    bound, spent = relaxed.objective, relaxed.seconds
    best = Solution("clock", None, -inf, bound, spent)
    for narrow in (*_narrowed(model, relaxed.values, stop), None):
        if cancelled is not None and cancelled():
            return Solution("cancelled", best.values, best.objective, bound, spent)
        share = stop.seconds * NARROW_SHARE if narrow else stop.seconds
        found = solve(
            narrow or model.linear,
            Limits(stop.gap, min(share, stop.seconds - spent), stop.seed, bound / (1 + stop.gap) if bound > 0 else inf),
            start=best.values,
            tell=_told(tell, best, whole=narrow is None),
            cancelled=cancelled,
        )
        spent += found.seconds
        if narrow is None:
            bound = min(bound, found.bound)
        values, objective = best.values, best.objective
        if found.values is not None and found.objective > objective:
            values, objective = found.values, found.objective
        best = Solution(found.ended, values, objective, bound, spent)
        if tell is not None:
            tell(Progress(spent, None if values is None else objective, bound))
        if found.ended == "cancelled" or objective * (1 + stop.gap) >= bound:
            break
    if best.ended == "cancelled" or (best.ended == "infeasible" and best.values is None):
        return best
    # The solver's own word counts too: at a gap of 0 it allows for rounding.
    close = best.ended == "within_gap" or best.objective * (1 + stop.gap) >= best.bound - TINY
    return Solution("within_gap" if close else "clock", best.values, best.objective, best.bound, spent)


def _narrowed(model: WeekModel, values: list[float], stop: Stop) -> Iterator[LinearModel]:
    spread = _spread(model, values)
    guess = relax(spread, Limits(stop.gap, stop.seconds, stop.seed)).values if spread else None
    places = {key for key, column in model.use.items() if (guess or values)[column] > TINY}
    exercises = {key[1] for key in places} | model.facts.request.include
    yield _only(model, lambda key: key in places or key[1] in model.facts.request.include)
    yield _only(model, lambda key: key[1] in exercises)


def _spread(model: WeekModel, values: list[float]) -> LinearModel | None:
    """Return the model with each group trained directly on one class of days only; None when no days are near."""
    if not model.exposed:
        return None
    classes, choice = day_classes(model.facts), split_groups(model, values)
    high = model.linear.high.copy()
    for (day, group), column in model.exposed.items():
        if day not in classes[choice[group]]:
            high[column] = 0.0
    return _with(model.linear, high)


def _only(model: WeekModel, wanted: Callable[[tuple[str, str]], bool]) -> LinearModel:
    """Return the model with all other (day, exercise) held at none."""
    high = model.linear.high.copy()
    for key, column in model.use.items():
        if not wanted(key):
            high[column] = high[model.more[key]] = 0.0
    return _with(model.linear, high)


def _with(full: LinearModel, high: list[float]) -> LinearModel:
    return LinearModel(full.gain, full.low, high, full.whole, full.rows, full.row_low, full.row_high)


def _told(tell: Tell | None, so_far: Solution, whole: bool) -> Tell | None:
    """Return a listener that counts time and best over all stages, and the bound where it is one of the whole model."""
    if tell is None:
        return None

    def passed_on(progress: Progress) -> None:
        best = max(so_far.objective, -inf if progress.best is None else progress.best)
        bound = so_far.bound
        if whole and progress.bound is not None:
            bound = min(bound, progress.bound)
        tell(Progress(so_far.seconds + progress.seconds, None if best == -inf else best, bound))

    return passed_on
