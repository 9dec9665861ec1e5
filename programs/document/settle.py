"""After every change: mark what was changed by hand in a block with a ramp, and let its other weeks follow."""

from collections.abc import Mapping
from dataclasses import replace

from django.utils.translation import gettext as _

from programs.document.derive import derive
from programs.document.errors import EditError
from programs.document.keys import MakeKey
from programs.document.model import Block, Day, Document, Ramp, Slot, Week


def settle(
    before: Document, after: Document, fresh: MakeKey, leads: Mapping[int, str], *, mark: bool = True
) -> Document:
    """Return `after` with its ramps applied. `leads` is the muscle group that each exercise leads with, by id; what it
    does not name keeps the group it has. With `mark`, what differs from `before` inside a ramp's weeks is by hand."""
    old = {block.key: block for block in before.blocks}
    blocks = []
    for block in after.blocks:
        if block.ramp is None:
            blocks.append(_plain(block))
            continue
        if len(block.weeks) < (2 if block.ramp.deload else 1):
            raise EditError(_("A block that ends in a deload needs two weeks at least. Take the deload out first."))
        previous = old.get(block.key)
        if mark and previous is not None and previous.ramp is not None:
            block = _marked(block, previous)
        block = replace(block, ramp=_settled(block.ramp, leads, previous.ramp if previous else None))
        blocks.append(derive(block, fresh))
    return replace(after, blocks=tuple(blocks))


def _plain(block: Block) -> Block:
    """Return a block without a ramp, free of the marks that only a ramp gives meaning to."""
    weeks = []
    for week in block.weeks:
        days = tuple(
            replace(day, origin="", slots=tuple(replace(s, origin="", by_hand=False, group="") for s in day.slots))
            for day in week.days
        )
        weeks.append(replace(week, days=days, by_hand=False))
    return replace(block, weeks=tuple(weeks))


def counted(base: Week, leads: Mapping[int, str], old: Week | None) -> Week:
    """Return the base week with each slot counted to a muscle group, without the marks of other weeks.

    A slot that had the same exercise in `old` keeps its group: that an exercise is judged anew moves no weeks.
    """
    exercises = {slot.key: slot.exercise for day in old.days for slot in day.slots} if old else {}

    def with_group(slot: Slot) -> Slot:
        before = exercises.get(slot.key)
        same = slot.group and before == slot.exercise
        group = slot.group if same else leads.get(slot.exercise, "" if before else slot.group)
        return replace(slot, group=group, origin="", by_hand=False, load_pct=0)

    days = tuple(replace(day, origin="", slots=tuple(map(with_group, day.slots))) for day in base.days)
    return replace(base, days=days, deload=False, by_hand=False)


def _settled(ramp: Ramp, leads: Mapping[int, str], old: Ramp | None) -> Ramp:
    """Return the ramp without the rules of slots that are gone."""
    base = counted(ramp.base, leads, old.base if old else None)
    there = {slot.key for day in base.days for slot in day.slots}
    return replace(ramp, base=base, slots=tuple((key, rule) for key, rule in ramp.slots if key in there))


def _marked(block: Block, previous: Block) -> Block:
    old = {week.key: week for week in previous.weeks}
    return replace(block, weeks=tuple(_marked_week(week, old.get(week.key)) for week in block.weeks))


def _marked_week(week: Week, old: Week | None) -> Week:
    if old is None or week.by_hand or replace(week, note="") == replace(old, note=""):
        return week
    if _shape(week) != _shape(old):
        return replace(week, by_hand=True)
    before = {slot.key: slot for day in old.days for slot in day.slots}

    def marked(day: Day) -> Day:
        slots = (slot if slot == before[slot.key] else replace(slot, by_hand=True) for slot in day.slots)
        return replace(day, slots=tuple(slots))

    return replace(week, days=tuple(map(marked, week.days)))


def _shape(week: Week) -> tuple[object, ...]:
    days = ((day.key, day.name, tuple((slot.key, slot.pair) for slot in day.slots)) for day in week.days)
    return (week.deload, *days)
