"""What a client may do instead of an exercise of the plan: the listed substitutes, ready to be logged."""

import datetime as dt
from collections.abc import Collection
from typing import Any

from django.db.models import Q

from accounts.models import Client
from logbook.reads.entries import extra_entry
from programs.models import Exercise, ExerciseLink
from programs.services.client_limits import limits_of_client
from programs.services.limits import violations


def listed_substitutes(client: Client, exercise_ids: Collection[int], *, today: dt.date) -> dict[int, list[Exercise]]:
    """Map exercise ids to their listed substitutes, of the library and of the client's practice, without those that the
    client's limits close. Two queries, one more for a client who has limits."""
    links = ExerciseLink.objects.filter(
        Q(other__practice=None) | Q(other__practice=client.practice_id),
        exercise__in=exercise_ids,
        kind=ExerciseLink.Kind.SUBSTITUTE,
        other__archived_at=None,
    )
    limits = limits_of_client(client, today)
    if limits:
        links = links.prefetch_related("other__limits")
    found: dict[int, list[Exercise]] = {}
    for link in links.select_related("other__equipment").order_by("position", "pk"):
        if not limits or not violations(link.other, limits):
            found.setdefault(link.exercise_id, []).append(link.other)
    return found


def swap_key(slot: int, exercise: int) -> str:
    """Name a substitute in its slot: two slots may list the same one."""
    return f"swap-{slot}-{exercise}"


def swap_entry(slot: dict[str, Any], exercise: Exercise, last: dict[int, dict[str, Any]]) -> dict[str, Any]:
    """Return the entry of an exercise done in place of a slot's: the slot's prescription and pair, and no target, since
    targets are made from the exercise's own log."""
    taken = {name: slot[name] for name in ("slot", "pair", "prescription")}
    taken["key"] = swap_key(slot["slot"], exercise.pk)
    return {**extra_entry(exercise, last), **taken, "instead_of": slot["exercise"]["name"], "sets": [], "skip": None}


def swap_entries(
    entries: list[dict[str, Any]], substitutes: dict[int, list[Exercise]], last: dict[int, dict[str, Any]]
) -> list[dict[str, Any]]:
    """Return an entry for each slot and each of its substitutes, but for exercises that the session has already."""
    there = {entry["exercise"]["id"] for entry in entries}
    return [
        swap_entry(entry, exercise, last)
        for entry in entries
        if entry["slot"] is not None and "instead_of" not in entry
        for exercise in substitutes.get(entry["exercise"]["id"], ())
        # "8-12" would mean seconds for an exercise that is held.
        if exercise.pk not in there and exercise.rep_unit == entry["exercise"]["rep_unit"]
    ]


def bring_in(entries: list[dict[str, Any]], entry: dict[str, Any]) -> None:
    """Put a swap's entry behind that of the exercise it stands for."""
    at = next((i for i, one in enumerate(entries) if one["slot"] == entry["slot"]), len(entries) - 1)
    entries.insert(at + 1, entry)
