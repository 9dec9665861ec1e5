"""Exercises that a client cannot do or must not: what instead."""

from collections.abc import Mapping
from typing import Any

from programs.document import Document
from programs.document.adapt import Change, slots_in
from programs.fit.match import Match, Pool
from programs.fit.model import Choice, ClientFacts, ExerciseFit, Option, Proposal

# How many other exercises a coach may choose from beside the proposed one.
OFFERED_AT_MOST = 8


def why_not(exercise: ExerciseFit, client: ClientFacts) -> tuple[str, dict[str, Any]] | None:
    """Return the weightiest reason why the client cannot be given the exercise, as a code with parameters."""
    if closed := exercise.closed_by(client.limits):
        return "fit_limit", {"limits": list(closed)}
    if exercise.pk in client.pain:
        score, site = client.pain[exercise.pk]
        return "fit_pain", {"score": score, "site": site}
    for site in sorted(exercise.sites & client.pain_sites.keys()):
        return "fit_pain", {"score": client.pain_sites[site], "site": site}
    if client.equipment is not None and exercise.equipment not in client.equipment:
        return "fit_equipment", {"equipment": exercise.equipment_name}
    return None


def open_matches(pk: int, client: ClientFacts, pool: Pool) -> list[Match]:
    """Return what the client may do instead of exercise `pk`, best first; where it hurts is kept from as well. For a
    novice what is enough and no harder comes before everything harder."""
    sore = {client.pain[pk][1]} if pk in client.pain else set()
    found = [
        one
        for one in pool.ranked(pk)
        if why_not(one.exercise, client) is None and not (sore & one.exercise.sites - {"other"})
    ]
    return sorted(found, key=lambda one: (not one.enough, one.harder)) if client.status == "novice" else found


def swap_proposals(
    document: Document, client: ClientFacts, pool: Pool, choices: Mapping[str, Choice]
) -> list[Proposal]:
    """Return one proposal for each exercise of the document that the client cannot be given.

    A substitute is one that no other exercise of the same day is or becomes, where there is one. The reason says what a
    substitute that is not close loses, and that one is harder. Without one that is enough the exercise is proposed to
    be left out.
    """
    together = _together(document)
    taken: dict[int, int] = {}
    found = []
    for pk in together:
        reason = why_not(pool.exercises[pk], client)
        if reason is None:
            continue
        code, params = reason
        matches = open_matches(pk, client, pool)
        beside = {taken.get(other, other) for other in together[pk]}
        fresh = [one for one in matches if one.exercise.pk not in beside]
        best = next((one.exercise.pk for one in fresh if one.enough), 0)
        choice = choices.get(f"swap:{pk}", Choice())
        required = code != "fit_equipment"
        open_to = {one.exercise.pk for one in matches} | {0}
        to = choice.to if choice.to in open_to else best
        accepted = required or choice.accept
        if accepted:
            taken[pk] = to
        found.append(
            Proposal(
                id=f"swap:{pk}",
                change=Change("swap", pk, to) if to else Change("leave-out", pk),
                reason=code if to else f"{code}_out",
                params=params | said_of(next((one for one in matches if one.exercise.pk == to), None), pool, pk),
                exercise=pk,
                options=tuple(
                    Option(one.exercise.pk, one.heads, one.long, one.within, one.harder)
                    for one in _shown(fresh, matches, to)
                ),
                required=required,
                accepted=accepted,
                edited=to != best,
            )
        )
    return found


def said_of(chosen: Match | None, pool: Pool, pk: int) -> dict[str, Any]:
    """Return what a coach should know of a substitute: its loss where it is not close, and that it is harder."""
    if chosen is None:
        return {}
    said: dict[str, Any] = {}
    if not chosen.within:
        said["heads"] = round(100 * chosen.heads)
        if pool.exercises[pk].long:
            said["long"] = round(100 * chosen.long)
    return said | ({"harder": True} if chosen.harder else {})


def _shown(fresh: list[Match], matches: list[Match], to: int) -> list[Match]:
    shown = (fresh or matches)[:OFFERED_AT_MOST]
    chosen = next((one for one in matches if one.exercise.pk == to), None)
    return shown if chosen is None or chosen in shown else [chosen, *shown]


def _together(document: Document) -> dict[int, set[int]]:
    """Return each exercise of the document, in reading order, with those that share a day with it."""
    found: dict[int, set[int]] = {slot.exercise: set() for slot in slots_in(document)}
    for block in document.blocks:
        for week in block.weeks:
            for day in week.days:
                here = {slot.exercise for slot in day.slots}
                for pk in here:
                    found[pk] |= here - {pk}
    return found
