"""When nothing fits: a smallest set of demands that clash, and which single one to give up."""

from collections.abc import Collection, Sequence
from dataclasses import replace
from math import ceil

from periodization.draft.build import build
from periodization.draft.demands import Demand, demands_of
from periodization.draft.facts import Facts
from periodization.draft.highs import Cancelled, Limits, Solution, relax
from periodization.draft.request import Stop
from periodization.draft.result import Clash, Relaxation
from periodization.draft.search import search
from periodization.rules import Param, Reason

# Chosen: a single test that takes longer is left open.
ATTEMPT_SECONDS = 5.0
ANY_GAP = 1e9


class Stopped(Exception):
    """The search for a clash was cancelled."""


class _Filter:
    """Drops demands as long as the others still clash (deletion filter), halves at a time.

    With `fractions` of sets allowed a test is quick, and what clashes then clashes all the more in whole sets.
    """

    def __init__(self, facts: Facts, stop: Stop, cancelled: Cancelled | None, fractions: bool) -> None:
        self.facts, self.stop, self.cancelled, self.fractions = facts, stop, cancelled, fractions
        self.proven = True

    def run(self, demands: Sequence[Demand]) -> list[Demand]:
        """Return an irreducible clash out of `demands`, which clash. Those at the front go first."""
        self.kept = list(demands)
        self._thin(list(demands))
        return self.kept

    def _thin(self, part: list[Demand]) -> None:
        others = [demand for demand in self.kept if demand not in part]
        if self.clash(others):
            self.kept = others
        elif len(part) > 1:
            middle = len(part) // 2
            self._thin(part[:middle])
            self._thin(part[middle:])

    def clash(self, demands: Collection[Demand]) -> bool:
        """Say whether the demands are known to clash."""
        ended = attempt(self.facts, demands, None, self.stop, self.cancelled, self.fractions).ended
        if ended == "clock":
            # Unknown: keep the part, and say that the set may not be the smallest.
            self.proven = False
        return ended == "infeasible"


def find_clash(facts: Facts, stop: Stop, cancelled: Cancelled | None = None) -> Clash:
    """Return the clash of a request that no week can meet; `Stopped` when cancelled."""
    demands = demands_of(facts.request)
    rough = _Filter(facts, stop, cancelled, fractions=True)
    start: Sequence[Demand] = demands
    if rough.clash(demands):
        # Two tries, from either end: the smaller is easier to understand.
        start = min((rough.run(order) for order in (demands, demands[::-1])), key=len)
    sieve = _Filter(facts, stop, cancelled, fractions=False)
    members = sieve.run([demand for demand in demands if demand in start])
    found = [_relaxation(facts, demands, one, stop, cancelled) for one in members]
    return Clash(tuple(members), sieve.proven, tuple(one for one in found if one is not None))


def attempt(
    facts: Facts,
    demands: Collection[Demand],
    measured: Demand | None,
    stop: Stop,
    cancelled: Cancelled | None,
    fractions: bool = False,
) -> Solution:
    """Look for any week that meets `demands`; with `measured`, for one that misses that demand least."""
    if cancelled is not None and cancelled():
        # Small models are solved before the solver asks.
        raise Stopped
    model = build(facts, demands)
    # Any week will do, and the points of a good one lead the way to it.
    limits = Stop(ANY_GAP, min(stop.seconds, ATTEMPT_SECONDS), stop.seed)
    if measured in model.slack:
        limits = replace(limits, gap=0.0)
        model.linear.gain = [0.0] * len(model.linear.gain)
        model.linear.gain[model.slack[measured]] = -1.0
    if fractions:
        return relax(model.linear, Limits(0.0, limits.seconds, limits.seed))
    found = search(model, limits, cancelled=cancelled)
    if found.ended == "cancelled":
        raise Stopped
    return found


def _relaxation(
    facts: Facts, demands: Sequence[Demand], one: Demand, stop: Stop, cancelled: Cancelled | None
) -> Relaxation | None:
    """Return how giving up `one` alone would help; None when the rest still clashes, or the clock left it open."""
    found = attempt(facts, [demand for demand in demands if demand != one], one, stop, cancelled)
    if found.values is None:
        return None
    enough = _enough(facts, one, -found.objective)
    params: dict[str, Param] = dict(one.reason().params)
    if enough is None:
        return Relaxation(one, None, Reason(f"draft_relax_{one.kind}", params))
    return Relaxation(one, enough, Reason(f"draft_relax_{one.kind}", {**params, "enough": enough}))


def _enough(facts: Facts, one: Demand, missed: float) -> float | None:
    if one.amount is None or one.kind == "spacing":
        return None
    if one.kind == "minutes":
        day_seconds = (one.amount - facts.request.warm_up_minutes) * 60
        stretch = facts.budgets[one.subject] / day_seconds
        # Whole minutes, as a coach would give them; a hair is the solver's, not a minute.
        return float(ceil(one.amount + missed / stretch / 60 - 1e-6))
    change = round(missed, 3)
    return one.amount - change if one.kind in ("floor", "count_low") else one.amount + change
