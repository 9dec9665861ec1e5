"""A prompt's or a decision's numbers, day by day, before and after."""

import datetime as dt
from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import Exists, OuterRef

from logbook.models import Session
from programs.models import PlannedSlot
from programs.sentences import Words
from programs.templatetags.loads import load_words


@dataclass(frozen=True)
class ProposedSlot:
    exercise: str
    sets: tuple[int, int]
    rir_before: tuple[int, int]
    rir_after: tuple[int, int]
    load: tuple[str, str]
    instead: str = ""
    reps: tuple[tuple[int, int], tuple[int, int]] | None = None


@dataclass(frozen=True)
class ProposedDay:
    """`kept`: the session stays as it is, since it was begun before an answer was given."""

    date: dt.date
    slots: list[ProposedSlot]
    kept: bool


@dataclass(frozen=True)
class Proposal:
    """`sets` before and after, of the days that an answer still changes."""

    week: dt.date
    days: list[ProposedDay]
    sets: tuple[int, int]

    @property
    def kept(self) -> bool:
        return any(day.kept for day in self.days)


def proposal_of(stored: Mapping[str, Any], words: Words, changed: Collection[int] | None = None) -> Proposal:
    """Return a stored proposal in words, in one query.

    `changed` are the slots that a decision wrote; without it, every slot whose session has not begun.
    """
    facts = _facts([one["slot"] for one in stored["slots"]])
    days: dict[str, list[ProposedSlot]] = defaultdict(list)
    kept: set[str] = set()
    before = after = 0
    for one in stored["slots"]:
        begun, load_kind, equipment_kind = facts.get(one["slot"], (False, "", ""))
        days[one["date"]].append(
            ProposedSlot(
                words.exercises.get(str(one["exercise"]), "–"),
                (one["sets"][0], one["sets"][1]),
                (one["rir_min"][0], one["rir_max"][0]),
                (one["rir_min"][1], one["rir_max"][1]),
                (
                    load_words(one["load_kg"][0], words.unit, load_kind, equipment_kind),
                    load_words(one["load_kg"][1], words.unit, load_kind, equipment_kind),
                ),
                words.exercises.get(str(one.get("to_exercise", "")), ""),
                _ranges(one),
            )
        )
        if begun if changed is None else one["slot"] not in changed:
            kept.add(one["date"])
        else:
            before, after = before + one["sets"][0], after + one["sets"][1]
    return Proposal(
        dt.date.fromisoformat(stored["week"]),
        [ProposedDay(dt.date.fromisoformat(day), slots, day in kept) for day, slots in sorted(days.items())],
        (before, after),
    )


def _ranges(one: Mapping[str, Any]) -> tuple[tuple[int, int], tuple[int, int]] | None:
    """Return the range before and after, where it changes."""
    if "reps_min" not in one or one["reps_min"][0] == one["reps_min"][1]:
        return None
    return (one["reps_min"][0], one["reps_max"][0]), (one["reps_min"][1], one["reps_max"][1])


def _facts(slots: list[int]) -> dict[int, tuple[bool, str, str]]:
    """Return for each slot that is still planned: has its session begun, and the kinds of its load and equipment."""
    begun = Exists(Session.objects.filter(planned_id=OuterRef("session_id")))
    rows = PlannedSlot.objects.filter(pk__in=slots).annotate(begun=begun)
    kinds = rows.values_list("pk", "begun", "exercise__load_kind", "exercise__equipment__kind")
    return {pk: (is_begun, load, equipment) for pk, is_begun, load, equipment in kinds}


def exercises_in(stored: Mapping[str, Any]) -> set[str]:
    """Return the ids of the exercises that a stored proposal names."""
    named = {str(one["exercise"]) for one in stored["slots"]}
    named |= {str(one["to_exercise"]) for one in stored["slots"] if "to_exercise" in one}
    return named | {str(r["params"]["exercise"]) for r in stored.get("reasons", ()) if "exercise" in r["params"]}
