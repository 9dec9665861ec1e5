"""A prompt's or a decision's numbers, day by day, before and after."""

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from programs.sentences import Words


@dataclass(frozen=True)
class ProposedSlot:
    exercise: str
    sets: tuple[int, int]
    rir_before: tuple[int, int]
    rir_after: tuple[int, int]
    load_kg: tuple[float | None, float | None]


@dataclass(frozen=True)
class ProposedDay:
    date: dt.date
    slots: list[ProposedSlot]


@dataclass(frozen=True)
class Proposal:
    """`shares` are what the arithmetic used: sets and load multiplied, RIR added."""

    week: dt.date
    days: list[ProposedDay]
    sets: tuple[int, int]
    shares: dict[str, Any]


def proposal_of(stored: Mapping[str, Any], words: Words) -> Proposal:
    """Return a stored proposal with names."""
    days: dict[str, list[ProposedSlot]] = defaultdict(list)
    for one in stored["slots"]:
        days[one["date"]].append(
            ProposedSlot(
                words.exercises.get(str(one["exercise"]), "–"),
                (one["sets"][0], one["sets"][1]),
                (one["rir_min"][0], one["rir_max"][0]),
                (one["rir_min"][1], one["rir_max"][1]),
                (one["load_kg"][0], one["load_kg"][1]),
            )
        )
    return Proposal(
        dt.date.fromisoformat(stored["week"]),
        [ProposedDay(dt.date.fromisoformat(day), slots) for day, slots in sorted(days.items())],
        (stored["sets"][0], stored["sets"][1]),
        {name: stored[name] for name in ("sets_share", "rir_up", "load_share")},
    )


def exercises_in(stored: Mapping[str, Any]) -> set[str]:
    """Return the ids of the exercises that a stored proposal names."""
    return {str(one["exercise"]) for one in stored["slots"]}
