"""Draft a week: search, improve, arrange, explain; or say what clashes."""

from collections import defaultdict
from dataclasses import replace
from math import fsum
from typing import Literal

from periodization.draft.arrange import arrange
from periodization.draft.breaches import breaches
from periodization.draft.clash import Stopped, find_clash
from periodization.draft.exchange import Exchanged, exchange
from periodization.draft.explain import needs_of
from periodization.draft.facts import Facts, gather
from periodization.draft.highs import Cancelled, Progress, Solution, Tell
from periodization.draft.model import build
from periodization.draft.request import Request
from periodization.draft.result import Draft, DraftDay, DraftResult, DraftSlot, NoAnswer
from periodization.draft.score import Sets, terms
from periodization.draft.search import search
from periodization.draft.validate import check_request
from periodization.rules import Reason, Rule

RULE = Rule("draft.week", 1, "integer program; every weight chosen, see docs/methods/draft.md")
# Pairs save about a third of the time (docs/methods/duration.md): so much more is planned for, and taken back step by
# step where a day turns out longer than it may be.
STRETCHES = (1.35, 1.2, 1.1, 1.0)
# Chosen: what each of those tries may take of the time that is left, and what the last one gets at least.
FIRST_SHARE = 0.6
LEAST_SECONDS = 0.5


def draft_week(request: Request, tell: Tell | None = None, cancelled: Cancelled | None = None) -> DraftResult:
    """Draft a week for the request; ValueError when it makes no sense.

    `tell` is called with a Progress now and then, `cancelled` is asked now and then; both in the calling thread.
    """
    check_request(request)
    stretches = STRETCHES if request.pairs else (1.0,)
    stretch = dict.fromkeys((day.id for day in request.days), stretches[0])
    seconds = 0.0
    for place in range(len(stretches)):
        facts = gather(request, stretch)
        left = request.stop.seconds - seconds
        share = 1.0 if place + 1 == len(stretches) else FIRST_SHARE
        found = search(build(facts), replace(request.stop, seconds=max(LEAST_SECONDS, left * share)), tell, cancelled)
        seconds += found.seconds
        if found.ended == "infeasible":
            if tell is not None:
                tell(Progress(seconds, None, None, clashing=True))
            try:
                return find_clash(facts, request.stop, cancelled)
            except Stopped:
                return NoAnswer("cancelled", seconds)
        if found.values is None:
            return NoAnswer("cancelled" if found.ended == "cancelled" else "clock", seconds)
        better = exchange(facts, build(facts).read(found.values), cancelled)
        draft = _written(facts, found, better, seconds)
        over = [day.id for day, asked in zip(draft.days, request.days, strict=True) if day.minutes > asked.minutes]
        if not over:
            return draft
        stretch |= dict.fromkeys(over, stretches[place + 1])
    raise AssertionError("Unpaired, a session is never longer than the model counts.")


def _written(facts: Facts, found: Solution, better: Exchanged, seconds: float) -> Draft:
    sets = better.sets
    if broken := breaches(facts, sets):
        raise AssertionError(f"The draft breaks {broken[0]}.")
    worth = terms(facts, sets)
    points = fsum(worth.values())
    bound = max(found.bound, points)
    gap = (bound - points) / points if points > 0 else 0.0 if bound == points else 1.0
    ended: Literal["within_gap", "clock", "cancelled"] = "cancelled" if found.ended == "cancelled" else "clock"
    if found.ended == "within_gap" or gap <= facts.request.stop.gap:
        ended = "within_gap"
    notes = [Reason("draft_bound_pairs")] if facts.request.pairs else []
    days = _days(facts, sets, better)
    return Draft(ended, points, bound, gap, days, worth, tuple(notes), seconds)


def _days(facts: Facts, sets: Sets, better: Exchanged) -> tuple[DraftDay, ...]:
    worth = terms(facts, sets)
    by_day: dict[str, dict[str, int]] = defaultdict(dict)
    for (day_id, exercise), amount in sets.items():
        by_day[day_id][exercise] = amount
    days = []
    for day in facts.request.days:
        order, minutes = arrange(facts, by_day[day.id])
        slots = []
        for exercise, pair in order:
            one = facts.exercises[exercise]
            place = (day.id, exercise)
            slots.append(
                DraftSlot(
                    exercise=exercise,
                    sets=sets[place],
                    reps=one.prescription.reps,
                    rir=one.prescription.rir,
                    rest_seconds=one.candidate.rest_seconds,
                    pair=pair,
                    needs=needs_of(facts, sets, place, worth),
                    next_best=better.next_best.get(place),
                )
            )
        days.append(DraftDay(day.id, day.weekday, tuple(slots), minutes))
    return tuple(days)
