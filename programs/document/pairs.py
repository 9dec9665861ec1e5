"""Paired sets: neighbours on a day that share a letter, shown A1, A2."""

from collections import Counter
from dataclasses import replace
from itertools import groupby

from programs.document.model import Day, Slot

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def labels(slots: tuple[Slot, ...]) -> list[str]:
    """Return "A1", "A2" ... for paired slots and "" for those alone, in the order of the slots."""
    seen: Counter[str] = Counter()
    result = []
    for slot in slots:
        seen[slot.pair] += 1
        result.append(f"{slot.pair}{seen[slot.pair]}" if slot.pair else "")
    return result


def tidy(day: Day) -> Day:
    """Letter the pairs A, B, ... in reading order. A slot whose partner has gone stands alone again."""
    slots: list[Slot] = []
    letters = iter(LETTERS)
    for letter, run in groupby(day.slots, key=lambda slot: slot.pair):
        members = list(run)
        new = next(letters) if letter and len(members) > 1 else ""
        slots.extend(slot if slot.pair == new else replace(slot, pair=new) for slot in members)
    return replace(day, slots=tuple(slots))
