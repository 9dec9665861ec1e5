"""Exchange one slot for another: makes a week better, and tells what the next best choice would cost."""

from collections.abc import Iterator
from dataclasses import dataclass

from periodization.draft.breaches import breaches
from periodization.draft.facts import Facts
from periodization.draft.highs import Cancelled
from periodization.draft.result import NextBest
from periodization.draft.score import Sets, score
from periodization.draft.standing import Standing

Place = tuple[str, str]
TINY = 1e-6
# A search that finds only whole weeks better than this has long ended; the bound keeps a slip from running on.
MOST_ROUNDS = 50


@dataclass(frozen=True, slots=True)
class Exchanged:
    """The week after every exchange that made it better, and the best that is left for each of its slots."""

    sets: Sets
    points: float
    next_best: dict[Place, NextBest]


def exchange(facts: Facts, sets: Sets, cancelled: Cancelled | None = None) -> Exchanged:
    """Exchange slots one at a time, the best first, until none makes the week better. `sets` meet every demand.

    When `cancelled`, the round that runs is the last: it still tells what the next best would cost.
    """
    week, points = dict(sets), score(facts, sets)
    next_best: dict[Place, NextBest] = {}
    for _ in range(MOST_ROUNDS):
        gains: list[tuple[float, Place, Sets]] = []
        next_best = {}
        stop = False
        for place in sorted(week):
            # Asked at each place, so that whoever waits for a sign of life gets one.
            stop = stop or (cancelled is not None and cancelled())
            other = _best_exercise(facts, week, place)
            if other is not None:
                next_best[place] = NextBest(other[1][1], other[2][other[1]], max(0.0, points - other[0]))
                gains.append((other[0], place, other[2]))
            gains.extend((worth, place, changed) for worth, changed in _same_exercise(facts, week, place))
        best = max(gains, key=lambda gain: gain[0], default=None)
        if best is None or best[0] <= points + TINY or stop:
            break
        points, week = best[0], dict(best[2])
    return Exchanged(week, points, next_best)


def _best_exercise(facts: Facts, week: dict[Place, int], place: Place) -> tuple[float, Place, Sets] | None:
    """Return the best exchange for another exercise: points, where, and the week."""
    rest = {key: amount for key, amount in week.items() if key != place}
    standing = Standing(facts, rest)
    worths = [
        (standing.with_slot(place[0], other, amount), other, amount)
        for other in _rivals(facts, week, place)
        for amount in _amounts(facts, week[place])
    ]
    for worth, other, amount in sorted(worths, key=lambda one: -one[0]):
        changed = {**rest, (place[0], other): amount}
        if not breaches(facts, changed):
            return worth, (place[0], other), changed
    return None


def _same_exercise(facts: Facts, week: dict[Place, int], place: Place) -> Iterator[tuple[float, Sets]]:
    """Yield the week without the slot, and with a set more or less of it, where that is better and allowed."""
    rest = {key: amount for key, amount in week.items() if key != place}
    standing = Standing(facts, rest)
    now = standing.with_slot(*place, week[place])
    amounts = [amount for amount in _amounts(facts, week[place]) if amount != week[place]]
    others = [(standing.with_slot(*place, amount), {**rest, place: amount}) for amount in amounts]
    for worth, changed in [(standing.points, rest), *others]:
        if worth > now + TINY and not breaches(facts, changed):
            yield worth, changed


def _rivals(facts: Facts, week: dict[Place, int], place: Place) -> Iterator[str]:
    """Yield the exercises that could stand in: not on that day yet, not barred, for at least one of the groups."""
    mine = facts.exercises[place[1]]
    groups = mine.direct or set(mine.credit)
    for other, one in facts.exercises.items():
        if not one.barred_by and (place[0], other) not in week and groups & set(one.credit):
            yield other


def _amounts(facts: Facts, amount: int) -> list[int]:
    low, high = facts.request.sets
    return [n for n in (amount, amount - 1, amount + 1) if low <= n <= high]
