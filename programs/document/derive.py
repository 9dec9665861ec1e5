"""Write the weeks of a block from its base week and ramp, leaving alone what was changed by hand."""

from collections.abc import Mapping
from dataclasses import replace

from programs.document.keys import MakeKey
from programs.document.model import Block, Day, Slot, Week
from programs.document.pairs import tidy
from programs.document.ramp import prescriptions


def derive(block: Block, fresh: MakeKey) -> Block:
    """Return the block with its weeks as the ramp makes them, as many as it has now.

    Weeks keep their key and note, days and slots the key under which they came from the same part of the base week
    before. A week by hand stays whole; a slot by hand keeps its exercise and prescription, and its place if the base
    week lost it.
    """
    ramp = block.ramp
    if ramp is None:
        return block
    made = prescriptions(ramp, len(block.weeks))
    weeks = []
    for number, (old, slots) in enumerate(zip(block.weeks, made, strict=True), 1):
        deload = ramp.deload and number == len(block.weeks)
        weeks.append(old if old.by_hand else _week(old, ramp.base, slots, deload, fresh))
    return replace(block, weeks=tuple(weeks))


def _week(old: Week, base: Week, made: Mapping[str, Slot], deload: bool, fresh: MakeKey) -> Week:
    day_keys: dict[str, str] = {}
    before: dict[str, Slot] = {}
    for day in old.days:
        day_keys.setdefault(day.origin, day.key)
        for slot in day.slots:
            before.setdefault(slot.origin, slot)
    days = [
        Day(
            day_keys.get(day.key) or fresh(),
            day.name,
            tuple(_slot(made[slot.key], before.get(slot.key), fresh) for slot in day.slots),
            day.key,
        )
        for day in base.days
    ]
    days = _with_left_over(days, old, {slot.key for day in base.days for slot in day.slots})
    return replace(old, deload=deload, days=tuple(tidy(day) for day in days))


def _slot(made: Slot, old: Slot | None, fresh: MakeKey) -> Slot:
    if old and old.by_hand:
        return replace(old, pair=made.pair)
    return replace(made, key=old.key if old else fresh(), origin=made.key, group="", by_hand=False)


def _with_left_over(days: list[Day], old: Week, known: set[str]) -> list[Day]:
    """Keep the slots by hand whose part of the base week is gone, alone at the end of their day."""
    result = list(days)
    places = {day.origin: number for number, day in enumerate(days)}
    for day in old.days:
        left = tuple(replace(slot, pair="") for slot in day.slots if slot.by_hand and slot.origin not in known)
        if not left:
            continue
        if day.origin in places:
            number = places[day.origin]
            result[number] = replace(result[number], slots=(*result[number].slots, *left))
        else:
            result.append(replace(day, slots=left))
    return result
