"""Order a day's exercises and pair them; the same day always comes out the same."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import combinations
from string import ascii_uppercase

from periodization.draft.facts import ExerciseFacts, Facts
from periodization.duration import SlotTime, session_minutes

# A share of a set from here on tires a group enough to spoil its partner's set. Chosen: the credit of indirect work.
TIRES = 0.5


def arrange(facts: Facts, sets: Mapping[str, int]) -> tuple[list[tuple[str, str]], float]:
    """Return the day's (exercise, pair letter) in order, and its minutes. `sets` by exercise.

    Focus before the rest, over several joints before one, the same equipment together. Pairs, when wanted: of
    exercises that share no group, the pair that saves most time first; kept only if the session gets no longer.
    """
    ordered = sorted(sets, key=lambda exercise: _rank(facts, facts.exercises[exercise]))
    slots = {exercise: _time(facts.exercises[exercise], sets[exercise]) for exercise in ordered}
    warm_up = facts.request.warm_up_minutes
    alone = session_minutes(list(slots.values()), warm_up)
    if facts.request.pairs:
        paired = _in_pairs(facts, ordered, slots)
        minutes = session_minutes(
            [replace(slots[exercise], pair=letter or None) for exercise, letter in paired], warm_up
        )
        if minutes <= alone:
            return paired, minutes
    return [(exercise, "") for exercise in ordered], alone


def _in_pairs(facts: Facts, ordered: list[str], slots: dict[str, SlotTime]) -> list[tuple[str, str]]:
    savings = []
    for place, (first, second) in enumerate(combinations(ordered, 2)):
        if not _tired(facts, first) & _tired(facts, second):
            both = [slots[first], slots[second]]
            saved = session_minutes(both) - session_minutes([replace(slot, pair="A") for slot in both])
            savings.append((-saved, place, first, second))
    partner: dict[str, str] = {}
    for saved, _, first, second in sorted(savings):
        if saved < 0 and first not in partner and second not in partner:
            partner[first], partner[second] = second, first
    result: list[tuple[str, str]] = []
    letters = iter(ascii_uppercase)
    for exercise in ordered:
        if exercise in partner and exercise not in (done for done, _ in result):
            letter = next(letters)
            result += [(exercise, letter), (partner[exercise], letter)]
        elif exercise not in partner:
            result.append((exercise, ""))
    return result


def _tired(facts: Facts, exercise: str) -> set[str]:
    return {group for group, credit in facts.exercises[exercise].credit.items() if credit >= TIRES}


def _rank(facts: Facts, one: ExerciseFacts) -> tuple[float, bool, str, str]:
    first = max((facts.factor[group] for group in one.direct), default=0.0)
    return -first, not one.candidate.compound, one.equipment, one.id


def _time(one: ExerciseFacts, sets: int) -> SlotTime:
    return SlotTime(
        sets=sets,
        reps=sum(one.prescription.reps) / 2,
        tempo_seconds=one.candidate.rep_seconds,
        rest_seconds=float(one.candidate.rest_seconds),
        one_sided=one.candidate.one_sided,
        change_seconds=one.candidate.setup_seconds,
    )
