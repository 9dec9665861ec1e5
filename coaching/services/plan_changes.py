"""Write an accepted proposal onto the plan, and what undo needs to know about it."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from django.db.models import Q

from coaching.services.conflict import nothing_left, proposal_changed
from programs.models import PlannedSession, PlannedSlot

PRESCRIPTION = ("sets", "rir_min", "rir_max")
# Only what may get a smaller range says its range.
RANGE = ("reps_min", "reps_max")
# What undo compares: decisions from before exercises or ranges could be exchanged have none among their fields.
COMPARED = ("exercise_id", *PRESCRIPTION, *RANGE)
FIELDS = ("exercise_id", "sets_min", *PRESCRIPTION, *RANGE, "target_load_kg", "target_reps", "target_reason")


@dataclass(frozen=True)
class OpenPlan:
    """The slots that proposals reach, not begun and not cancelled: those they name by id, and later ones of the same
    exercise by (client, exercise)."""

    named: dict[int, PlannedSlot]
    later: dict[tuple[int, int], list[PlannedSlot]]


@dataclass
class Changes:
    """What was changed in memory and is yet to be written."""

    slots: dict[int, PlannedSlot] = field(default_factory=dict)
    deloads: set[int] = field(default_factory=set)


def open_plan(proposals: Sequence[tuple[int, dict[str, Any]]]) -> OpenPlan:
    """Read what proposals of (client, proposal) reach: one query, and one more where one goes on to the plan's end."""
    rows = PlannedSlot.objects.select_related("session").filter(
        session__client__in={client for client, _ in proposals},
        session__cancelled_at=None,
        session__performed=None,
    )
    rows = rows.order_by("session__date", "session_id", "position")
    named = {one["slot"] for _, proposal in proposals for one in proposal["slots"]}
    found = {slot.pk: slot for slot in rows.filter(pk__in=named)}
    onward = [(client, proposal) for client, proposal in proposals if proposal.get("onward")]
    later: dict[tuple[int, int], list[PlannedSlot]] = defaultdict(list)
    if onward:
        wanted = Q()
        for client, proposal in onward:
            last = max(one["date"] for one in proposal["slots"])
            wanted |= Q(session__client=client, exercise=proposal["exercise"], session__date__gt=last)
        for slot in rows.filter(wanted):
            later[slot.session.client_id, slot.exercise_id].append(slot)
    return OpenPlan(found, later)


def change(client_id: int, proposal: dict[str, Any], plan: OpenPlan, into: Changes) -> list[dict[str, Any]]:
    """Change the slots of the proposal in memory, and return before and after of every row.

    A deload also sets the loads and marks the sessions; for the others the worker finds new loads. A slot's
    `to_exercise` exchanges its exercise, and `onward` does the same to the plan's later sessions. Raises Conflict, with
    nothing changed, when a slot no longer says what the proposal started from, or when every session has begun.
    """
    deload = proposal["kind"] not in ("hold", "swap", "progress", "contact")
    proposed = {one["slot"]: one for one in proposal["slots"]}
    slots = [slot for pk, slot in plan.named.items() if pk in proposed and slot.session.client_id == client_id]
    if not slots:
        raise nothing_left()
    for slot in slots:
        wanted = proposed[slot.pk]
        if slot.exercise_id != wanted["exercise"] or any(
            name in wanted and getattr(slot, name) != wanted[name][0] for name in (*PRESCRIPTION, *RANGE)
        ):
            raise proposal_changed()
    if proposal.get("onward"):
        slots += _later(plan.later[client_id, proposal["exercise"]], proposal, proposed)
    into.slots |= {slot.pk: slot for slot in slots}
    if deload:
        into.deloads |= {slot.session_id for slot in slots}
    return [_changed(slot, proposed[slot.pk], deload=deload) for slot in slots]


def _changed(slot: PlannedSlot, wanted: dict[str, Any], *, deload: bool) -> dict[str, Any]:
    before = {name: getattr(slot, name) for name in FIELDS}
    if wanted["sets"][0] != wanted["sets"][1]:
        slot.sets_min = None
    for name in (*PRESCRIPTION, *RANGE):
        if name in wanted:
            setattr(slot, name, wanted[name][1])
    if deload:
        slot.target_load_kg, slot.target_reps = wanted["load_kg"][1], wanted["reps"]
        slot.target_reason = wanted["reason"]
    elif "to_exercise" in wanted:
        slot.exercise_id = wanted["to_exercise"]
        slot.target_load_kg = slot.target_reps = slot.target_reason = None
    return {
        "slot": slot.pk,
        "session": slot.session_id,
        "date": slot.session.date.isoformat(),
        "day": slot.session.day_name,
        "exercise": wanted["exercise"],
        "before": before,
        "after": {name: getattr(slot, name) for name in FIELDS},
    }


def write(changes: Changes) -> None:
    """Write what was changed."""
    PlannedSlot.objects.bulk_update(changes.slots.values(), FIELDS)
    if changes.deloads:
        PlannedSession.objects.filter(pk__in=changes.deloads).update(is_deload=True)


def _later(
    slots: Sequence[PlannedSlot], proposal: dict[str, Any], proposed: dict[int, dict[str, Any]]
) -> list[PlannedSlot]:
    """Return the later slots of the same exercise and add to `proposed` what they become: another exercise, or, where
    their range is one of those that are exchanged, the same smaller one. Their sets and effort stay."""
    rows = proposal["slots"]
    found = []
    for slot in slots:
        same = next((row for row in rows if [row[n][0] for n in RANGE] == [getattr(slot, n) for n in RANGE]), None)
        row = same or next((row for row in rows if "to_exercise" in row), None)
        if row is None:
            continue
        kept = {name: [getattr(slot, name)] * 2 for name in (*PRESCRIPTION, *RANGE)}
        proposed[slot.pk] = {**row, **kept, **({name: row[name] for name in RANGE} if same else {})}
        found.append(slot)
    return found


def restore(changes: list[dict[str, Any]], *, deload: bool) -> list[dict[str, Any]]:
    """Put back what was before, session by session, and return the changes with `restored` and, if not, `why`.

    A session that was begun or rewritten since stays as it is: what someone did or wrote later is not undone.
    """
    slots = {
        slot.pk: slot
        for slot in PlannedSlot.objects.select_related("session").filter(pk__in=[one["slot"] for one in changes])
    }
    begun = set(
        PlannedSession.objects.filter(pk__in=[one["session"] for one in changes], performed__isnull=False).values_list(
            "pk", flat=True
        )
    )
    result, back = [], []
    for one in changes:
        slot = slots.get(one["slot"])
        why = ""
        if slot is None:
            why = "removed"
        elif one["session"] in begun:
            why = "begun"
        elif any(getattr(slot, name) != one["after"].get(name, getattr(slot, name)) for name in COMPARED):
            why = "rewritten"
        else:
            for name, value in one["before"].items():
                setattr(slot, name, value)
            back.append(slot)
        result.append({**one, "restored": not why, "why": why})
    if back:
        PlannedSlot.objects.bulk_update(back, FIELDS)
    if not deload:
        return result
    whole = {one["session"] for one in result} - {one["session"] for one in result if one["why"]}
    PlannedSession.objects.filter(pk__in=whole).update(is_deload=False)
    return result
