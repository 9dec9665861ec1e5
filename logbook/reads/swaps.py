"""What a client may do instead of an exercise of the plan: the listed substitutes, ready to be logged."""

from collections.abc import Collection
from typing import Any

from django.db.models import Q

from accounts.models import Client
from logbook.reads.entries import extra_entry
from programs.models import Exercise, ExerciseLink

# More would make every session's page heavy, and a choice in a crowded gym long.
MOST_A_SLOT = 2


def listed_substitutes(client: Client, exercise_ids: Collection[int]) -> dict[int, list[Exercise]]:
    """Map exercise ids to their first listed substitutes, of the library and of the client's practice. One query."""
    links = ExerciseLink.objects.filter(
        Q(other__practice=None) | Q(other__practice=client.practice_id),
        exercise__in=exercise_ids,
        kind=ExerciseLink.Kind.SUBSTITUTE,
        other__archived_at=None,
    )
    found: dict[int, list[Exercise]] = {}
    for link in links.select_related("other__equipment").order_by("position", "pk"):
        rows = found.setdefault(link.exercise_id, [])
        if len(rows) < MOST_A_SLOT:
            rows.append(link.other)
    return found


def swap_entry(slot: dict[str, Any], exercise: Exercise, last: dict[int, dict[str, Any]]) -> dict[str, Any]:
    """Return the entry of an exercise done in place of a slot's: the slot's prescription and pair, and no target, since
    targets are made from the exercise's own log."""
    taken = {name: slot[name] for name in ("slot", "pair", "prescription")}
    return {**extra_entry(exercise, last), **taken, "instead_of": slot["exercise"]["name"], "sets": [], "skip": None}


def swap_entries(
    entries: list[dict[str, Any]], substitutes: dict[int, list[Exercise]], last: dict[int, dict[str, Any]]
) -> list[dict[str, Any]]:
    """Return an entry for each substitute that the session does not have yet; the first slot that lists it has it."""
    there = {entry["exercise"]["id"] for entry in entries}
    found = []
    for entry in entries:
        if entry["slot"] is None or "instead_of" in entry:
            continue
        for exercise in substitutes.get(entry["exercise"]["id"], ()):
            # "8-12" would mean seconds for an exercise that is held.
            if exercise.pk not in there and exercise.rep_unit == entry["exercise"]["rep_unit"]:
                there.add(exercise.pk)
                found.append(swap_entry(entry, exercise, last))
    return found


def bring_in(entries: list[dict[str, Any]], entry: dict[str, Any]) -> None:
    """Put a swap's entry behind that of the exercise it stands for."""
    at = next((i for i, one in enumerate(entries) if one["slot"] == entry["slot"]), len(entries) - 1)
    entries.insert(at + 1, entry)
