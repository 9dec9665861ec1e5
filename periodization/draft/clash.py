"""When nothing fits: a smallest set of demands that clash, and which single one to give up."""

from collections.abc import Collection, Sequence
from math import ceil

from periodization.draft.demands import Demand, demands_of
from periodization.draft.facts import Facts
from periodization.draft.highs import Cancelled, Limits, Solution, solve
from periodization.draft.linear import LinearModel
from periodization.draft.model import build
from periodization.draft.request import Stop
from periodization.draft.result import Clash, Relaxation
from periodization.rules import Param, Reason


class Stopped(Exception):
    """The search for a clash was cancelled."""


class _Filter:
    """Drops demands as long as the others still clash (deletion filter), halves at a time."""

    def __init__(self, facts: Facts, stop: Stop, cancelled: Cancelled | None) -> None:
        self.facts, self.stop, self.cancelled = facts, stop, cancelled
        self.proven = True

    def run(self, demands: Sequence[Demand]) -> list[Demand]:
        """Return an irreducible clash out of `demands`, which clash. Those at the front go first."""
        self.kept = list(demands)
        self._thin(list(demands))
        return self.kept

    def _thin(self, part: list[Demand]) -> None:
        others = [demand for demand in self.kept if demand not in part]
        if self._clash(others):
            self.kept = others
        elif len(part) > 1:
            middle = len(part) // 2
            self._thin(part[:middle])
            self._thin(part[middle:])

    def _clash(self, demands: Collection[Demand]) -> bool:
        ended = attempt(self.facts, demands, None, self.stop, self.cancelled).ended
        if ended == "clock":
            # Unknown: keep the part, and say that the set may not be the smallest.
            self.proven = False
        return ended == "infeasible"


def find_clash(facts: Facts, stop: Stop, cancelled: Cancelled | None = None) -> Clash:
    """Return the clash of a request that no week can meet; `Stopped` when cancelled. The smaller of two tries."""
    demands = demands_of(facts.request)
    tries = []
    for order in (demands, demands[::-1]):
        sieve = _Filter(facts, stop, cancelled)
        members = sieve.run(order)
        tries.append((not sieve.proven, len(members), members))
    unproven, _, members = min(tries, key=lambda one: one[:2])
    members = [demand for demand in demands if demand in members]
    found = [_relaxation(facts, demands, one, stop, cancelled) for one in members]
    return Clash(tuple(members), not unproven, tuple(one for one in found if one is not None))


def attempt(
    facts: Facts, demands: Collection[Demand], measured: Demand | None, stop: Stop, cancelled: Cancelled | None
) -> Solution:
    """Look for any week that meets `demands`; with `measured`, for one that misses that demand least."""
    if cancelled is not None and cancelled():
        # Small models are solved before the solver asks.
        raise Stopped
    model = build(facts, demands)
    full = model.linear
    gain = [0.0] * len(full.gain)
    if measured in model.slack:
        gain[model.slack[measured]] = -1.0
    plain = LinearModel(gain, full.low, full.high, full.whole, full.rows, full.row_low, full.row_high)
    found = solve(plain, Limits(0.0, stop.seconds, stop.seed), cancelled=cancelled)
    if found.ended == "cancelled":
        raise Stopped
    return found


def _relaxation(
    facts: Facts, demands: Sequence[Demand], one: Demand, stop: Stop, cancelled: Cancelled | None
) -> Relaxation | None:
    """Return what giving up `one` alone would help; None when the rest still clashes, or the clock left it open."""
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
