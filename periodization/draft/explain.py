"""Why each slot is there: what the week would lose without it."""

from periodization.draft.breaches import breaches
from periodization.draft.facts import Facts
from periodization.draft.result import Need
from periodization.draft.score import Sets, Terms, terms
from periodization.rules import Param, Reason

TINY = 1e-9
# Demands whose loss shows among the points already.
SAID = {"floor", "heads", "long"}


def needs_of(facts: Facts, sets: Sets, place: tuple[str, str], with_it: Terms) -> tuple[Need, ...]:
    """Return what the slot at `place` (day, exercise) is needed for, the dearest first; never empty.

    `with_it` are the terms of the whole week. What two slots serve together is a need of neither.
    """
    rest = {key: amount for key, amount in sets.items() if key != place}
    without = terms(facts, rest)
    found = []
    for key in with_it:
        lost = with_it[key] - without.get(key, 0.0)
        if lost > TINY:
            found.append(Need(_reason(facts, sets, place, key), lost))
    demanded = [
        Need(demand.reason(), 0.0) for demand in breaches(facts, rest) if demand.kind not in ("heads", "long", "floor")
    ]
    found.sort(key=lambda need: -need.points)
    return tuple(demanded + found) or (_share(facts, sets, place),)


def _reason(facts: Facts, sets: Sets, place: tuple[str, str], key: tuple[str, str]) -> Reason:
    kind, subject = key
    params: dict[str, Param] = {"subject": subject}
    if kind in ("floor", "volume"):
        params["sets"] = facts.exercises[place[1]].credit[subject] * sets[place]
        params["bound"] = facts.targets[subject].floor if kind == "floor" else facts.targets[subject].ceiling
    elif kind == "variety":
        params["subject"], params["action"] = subject.split("/", 1)
    return Reason(f"draft_need_{kind}", params)


def _share(facts: Facts, sets: Sets, place: tuple[str, str]) -> Need:
    """Return the need of a slot that others could stand in for: its sets for the group it trains most."""
    credit = facts.exercises[place[1]].credit
    group = max(sorted(credit), key=lambda one: credit[one], default="")
    return Need(Reason("draft_need_share", {"subject": group, "sets": credit.get(group, 0.0) * sets[place]}), 0.0)
