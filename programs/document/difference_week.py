"""What differs between a week and what it was, without saying which week: so that equal changes can be put together."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from typing import Any

from programs.document.model import Day, Slot, Week
from programs.document.order import out_of_order


@dataclass(frozen=True, slots=True)
class Local:
    code: str
    params: Mapping[str, Any]
    day: str = ""

    def sign(self) -> tuple[Any, ...]:
        """Return what is equal for equal changes of two weeks."""
        return self.code, self.day, json.dumps(self.params, sort_keys=True, default=str)


# Fields of a slot that are said by changes of their own, or are how a ramp keeps its books; every other one is part of
# its prescription.
ELSEWHERE = {"key", "exercise", "pair", "origin", "by_hand", "group"}
OF_WEEK = {"key", "days", "deload", "note", "by_hand"}


@dataclass(frozen=True, slots=True)
class Pairing:
    """`mapped` leads from the keys of the old document to those of the new one, `back` the other way; `slots` are the
    old document's, each with its day."""

    mapped: Mapping[str, str]
    back: Mapping[str, str]
    slots: Mapping[str, tuple[Day, Slot]]


def week_changes(old: Week, new: Week, pairing: Pairing) -> Iterator[Local]:
    """Yield the changes of one week."""
    mapped, back = pairing.mapped, pairing.back
    if old.deload != new.deload:
        yield Local("deload-on" if new.deload else "deload-off", {})
    if old.note != new.note:
        yield Local("week-note", {"before": old.note, "after": new.note})
    if other := [one.name for one in fields(new) if one.name not in OF_WEEK and _differ(old, new, one.name)]:
        yield Local("week-other", {"fields": other})
    old_days = {day.key: day for day in old.days}
    moved = out_of_order([day.key for day in new.days], [mapped.get(day.key) for day in old.days])
    for day in new.days:
        was = old_days.get(back.get(day.key, ""))
        if was is None:
            yield Local("day-added", {"exercises": [slot.exercise for slot in day.slots]}, day.name)
        else:
            if was.name != day.name:
                yield Local("day-renamed", {"before": was.name}, day.name)
            if day.key in moved:
                yield Local("day-moved", {}, day.name)
        yield from _slots(was, day, pairing)
    for day in old.days:
        if day.key not in mapped:
            yield Local("day-removed", {"exercises": [slot.exercise for slot in day.slots]}, day.name)
            continue
        for slot in day.slots:
            if slot.key not in mapped:
                yield Local("slot-removed", {"exercise": slot.exercise}, _name(new, mapped[day.key], day.name))


def _name(week: Week, key: str, otherwise: str) -> str:
    return next((day.name for day in week.days if day.key == key), otherwise)


def _slots(was: Day | None, day: Day, pairing: Pairing) -> Iterator[Local]:
    before = [pairing.mapped.get(slot.key) for slot in was.slots] if was else []
    moved = out_of_order([slot.key for slot in day.slots], before)
    for slot in day.slots:
        from_day, old = pairing.slots.get(pairing.back.get(slot.key, ""), (None, None))
        if old is None or from_day is None:
            if was is not None:
                yield Local("slot-added", {"exercise": slot.exercise, "slot": _said(slot)}, day.name)
            continue
        if pairing.mapped.get(from_day.key) != day.key:
            yield Local("slot-to-day", {"exercise": slot.exercise, "before": from_day.name}, day.name)
        elif slot.key in moved:
            yield Local("slot-moved", {"exercise": slot.exercise}, day.name)
        yield from slot_changes(old, slot, day.name)


def slot_changes(old: Slot, new: Slot, day: str = "") -> Iterator[Local]:
    """Yield what changed in a slot itself: exercise, pair, and every field of its prescription."""
    if old.exercise != new.exercise:
        yield Local("slot-swapped", {"before": old.exercise, "exercise": new.exercise}, day)
    names = [one.name for one in fields(new) if one.name not in ELSEWHERE and _differ(old, new, one.name)]
    if names:
        changes = {name: [getattr(old, name), getattr(new, name)] for name in names}
        yield Local("slot-changed", {"exercise": new.exercise, "fields": changes}, day)
    if bool(old.pair) != bool(new.pair):
        yield Local("slot-paired" if new.pair else "slot-alone", {"exercise": new.exercise}, day)


def _differ(old: object, new: object, name: str) -> bool:
    before, after = getattr(old, name), getattr(new, name)
    if name == "load_pct":  # 0: nothing is said of the load, so it is the first week's
        before, after = before or 100, after or 100
    return bool(before != after)


def _said(slot: Slot) -> dict[str, Any]:
    return {"sets": slot.sets, "reps": slot.reps, "rir": slot.rir}
