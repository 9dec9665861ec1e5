"""Draft a week: search, improve, arrange, explain; or say what clashes."""

from collections import defaultdict
from dataclasses import replace
from math import fsum
from typing import Literal

from periodization.draft.arrange import arrange
from periodization.draft.breaches import breaches
from periodization.draft.build import build
from periodization.draft.clash import Stopped, find_clash
from periodization.draft.exchange import Exchanged, exchange
from periodization.draft.explain import needs_of
from periodization.draft.facts import Facts, gather
from periodization.draft.highs import Cancelled, Progress, Solution, Tell
from periodization.draft.request import Request
from periodization.draft.result import Draft, DraftDay, DraftResult, DraftSlot, NoAnswer
from periodization.draft.score import Sets, terms
from periodization.draft.search import search
from periodization.draft.validate import check_request
from periodization.rules import Reason, Rule

RULE = Rule("draft.week", 1, "integer program; every weight chosen, see docs/methods/draft.md")
# Pairs save about a third of the time (docs/methods/duration.md): so much more is planned for at first. The next try
# plans for what the pairs of the last one really saved. CHOSEN, as is the number of tries.
FIRST_STRETCH = 1.35
MOST_STRETCH = 1.9
TRIES = 4
# A day that is filled so far needs no further try; one that was too long is planned a little shorter than it seems.
FILLED = 0.96
CAUTION = 0.98
# What each try may take of the time that is left, and what it gets at least.
SHARE = 0.5
LEAST_SECONDS = 0.5


def draft_week(request: Request, tell: Tell | None = None, cancelled: Cancelled | None = None) -> DraftResult:
    """Draft a week for the request; ValueError when it makes no sense.

    `tell` is called with a Progress now and then, `cancelled` is asked now and then; both in the calling thread.
    """
    check_request(request)
    tries = TRIES if request.pairs else 1
    stretch = dict.fromkeys((day.id for day in request.days), FIRST_STRETCH if request.pairs else 1.0)
    best: Draft | None = None
    seconds = 0.0
    for place in range(tries):
        last = place + 1 == tries
        if last and best is None:
            # Unpaired, a session is never longer than the model counts.
            stretch = dict.fromkeys(stretch, 1.0)
        facts = gather(request, stretch)
        share = (request.stop.seconds - seconds) * (1.0 if last else SHARE)
        found = search(build(facts), replace(request.stop, seconds=max(LEAST_SECONDS, share)), tell, cancelled)
        seconds += found.seconds
        if found.ended == "infeasible" and best is None:
            if tell is not None:
                tell(Progress(seconds, None, None, clashing=True))
            try:
                return find_clash(facts, request.stop, cancelled)
            except Stopped:
                return NoAnswer("cancelled", seconds)
        if found.values is None:
            if best is not None or found.ended == "cancelled":
                break
            continue
        draft = _written(facts, found, exchange(facts, build(facts).read(found.values), cancelled), seconds)
        filled = {day.id: day.minutes / asked.minutes for day, asked in zip(draft.days, request.days, strict=True)}
        if all(share <= 1 for share in filled.values()) and (best is None or draft.points > best.points):
            best = draft
        if draft.ended == "cancelled" or all(FILLED <= share <= 1 for share in filled.values()):
            break
        stretch = {day: _next(now, filled[day]) for day, now in stretch.items()}
    if best is not None:
        return replace(best, seconds=seconds)
    return NoAnswer("cancelled" if cancelled is not None and cancelled() else "clock", seconds)


def _next(stretch: float, filled: float) -> float:
    """Return by how much to lengthen a day that the last try filled to this share of its minutes."""
    if FILLED <= filled <= 1:
        return stretch
    wanted = stretch * CAUTION / filled if filled > 1 else MOST_STRETCH if not filled else stretch / filled
    return min(MOST_STRETCH, max(1.0, wanted))


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
