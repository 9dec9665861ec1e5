"""What the solver found, as it is kept: numbers and codes, no words."""

from typing import Any

from periodization.draft import Clash, Demand, Draft, DraftSlot, NoAnswer, Request
from periodization.draft.coverage import covered
from periodization.draft.facts import gather
from periodization.draft.result import DraftResult
from periodization.draft.score import aim, volume
from periodization.rules import Reason
from programs.models import DraftRun

State = DraftRun.State


def outcome_of(request: Request, result: DraftResult) -> tuple[str, dict[str, Any]]:
    """Return the run's state and its result as JSON."""
    if isinstance(result, Clash):
        return State.CLASH, _clash(result)
    if isinstance(result, NoAnswer):
        state = State.CANCELLED if result.ended == "cancelled" else State.NO_ANSWER
        return state, {"seconds": result.seconds}
    return State.DONE, _draft(request, result)


def _draft(request: Request, draft: Draft) -> dict[str, Any]:
    facts = gather(request)
    sets = {(day.id, slot.exercise): slot.sets for day in draft.days for slot in day.slots}
    amounts = volume(facts, sets)
    return {
        "ended": draft.ended,
        "points": draft.points,
        "bound": draft.bound,
        "gap": draft.gap,
        "seconds": draft.seconds,
        "days": [
            {"id": day.id, "weekday": day.weekday, "minutes": day.minutes, "slots": [_slot(s) for s in day.slots]}
            for day in draft.days
        ],
        "terms": [[kind, subject, points] for (kind, subject), points in draft.terms.items()],
        "notes": [_reason(note) for note in draft.notes],
        "groups": [
            {
                "slug": target.group,
                "sets": amounts[target.group],
                "floor": target.floor,
                "ceiling": target.ceiling,
                "aim": aim(facts, target.group),
                "priority": target.priority,
            }
            for target in request.targets
        ],
        "heads": [
            {"slug": one.head, "group": one.group, "sets": one.sets, "direct": one.direct, "long": one.long}
            for one in covered(facts, sets)
        ],
    }


def _slot(slot: DraftSlot) -> dict[str, Any]:
    best = slot.next_best
    return {
        "exercise": int(slot.exercise),
        "sets": slot.sets,
        "reps": list(slot.reps),
        "rir": list(slot.rir),
        "rest_s": slot.rest_seconds,
        "pair": slot.pair,
        "needs": [{**_reason(need.reason), "points": need.points} for need in slot.needs],
        "next_best": (
            {"exercise": int(best.exercise), "sets": best.sets, "points": best.points} if best is not None else None
        ),
    }


def _clash(clash: Clash) -> dict[str, Any]:
    return {
        "demands": [_demand(one) for one in clash.demands],
        "proven": clash.proven,
        "relaxations": [{"demand": _demand(one.demand), "enough": one.enough} for one in clash.relaxations],
    }


def _demand(demand: Demand) -> dict[str, Any]:
    return {"kind": demand.kind, "subject": demand.subject, "day": demand.day, "amount": demand.amount}


def _reason(reason: Reason) -> dict[str, Any]:
    return {"code": reason.code, "params": dict(reason.params)}
