"""Changes to a block's ramp: set it, take it off, give back what was changed by hand."""

from collections.abc import Mapping
from dataclasses import replace

from django.utils.translation import gettext as _

from programs.document import limits
from programs.document.edits.ramp_rules import read_rules
from programs.document.edits.registry import operation
from programs.document.errors import EditError
from programs.document.find import find, put
from programs.document.keys import MakeKey, with_new_keys
from programs.document.model import Block, Document, Ramp, Slot, Week
from programs.document.settle import counted


@operation("ramp")
def ramp(
    document: Document,
    fresh: MakeKey,
    *,
    block: str,
    weeks: str = "",
    deload: bool = True,
    rules: Mapping[str, str] | None = None,
    leads: Mapping[int, str] | None = None,
) -> Document:
    """Let the block's weeks come from a base week: the one it has, else a copy of its first week.

    `weeks` counts them with the deload, as typed (empty: as many as there are); `rules` are texts as typed, by field
    (see ramp_rules). Weeks that were written differently stay as they are, by hand.
    """
    node = find(document, block, Block).node
    if not node.weeks:
        raise EditError(_("Write the first week before you set a ramp: there is no exercise in it yet."))
    count = _weeks(weeks or str(len(node.weeks)), deload)
    base, known = (node.ramp.base, node.weeks) if node.ramp else _first_base(node.weeks, fresh)
    base = counted(base, leads or {}, node.ramp.base if node.ramp else None)
    if not any(day.slots for day in base.days):
        raise EditError(_("Write the first week before you set a ramp: there is no exercise in it yet."))
    dropped = [number for number, week in enumerate(known, 1) if number > count and _is_by_hand(week)]
    if dropped:
        raise EditError(
            _("Week %(week)s was changed by hand and would be lost. Give it back to the ramp, or remove it, first.")
            % {"week": dropped[0]},
            "weeks",
        )
    more = tuple(Week(fresh()) for _number in range(len(known), count))
    made = Ramp(base, deload, *read_rules(rules or {}, base))
    return put(document, block, lambda part: (replace(part, weeks=(*known[:count], *more), ramp=made),))


@operation("ramp-off")
def ramp_off(document: Document, fresh: MakeKey, *, block: str) -> Document:
    """Take the ramp off. Every week stays as it is now; the base week goes."""
    if find(document, block, Block).node.ramp is None:
        raise EditError(_("This block has no ramp."))
    return put(document, block, lambda part: (replace(part, ramp=None),))


@operation("release")
def release(document: Document, fresh: MakeKey, *, key: str) -> Document:
    """Give a week or a slot back to the ramp, or all weeks of a block. What was changed in it by hand goes."""
    place = find(document, key, Block, Week, Slot)
    if place.block.ramp is None or (not place.week_number and not isinstance(place.node, Block)):
        raise EditError(_("Only a week of a block with a ramp can be given back to it."))
    return put(document, key, lambda part: (_released(part),))


def _released(part: Block | Week | Slot) -> Block | Week | Slot:
    match part:
        case Block():
            return replace(part, weeks=tuple(_released(week) for week in part.weeks))
        case Week():
            days = tuple(replace(day, slots=tuple(_released(slot) for slot in day.slots)) for day in part.days)
            return replace(part, by_hand=False, days=days)
    return replace(part, by_hand=False)


def _weeks(text: str, deload: bool) -> int:
    least = 2 if deload else 1
    if not text.strip().isdecimal() or not least <= int(text) <= limits.WEEKS:
        said = (
            _("Write how many weeks: %(least)s to %(most)s.")
            if not deload
            else _("Write how many weeks, the deload among them: %(least)s to %(most)s.")
        )
        raise EditError(said % {"least": least, "most": limits.WEEKS}, "weeks")
    return int(text)


def _is_by_hand(week: Week) -> bool:
    return week.by_hand or any(slot.by_hand for day in week.days for slot in day.slots)


def _first_base(weeks: tuple[Week, ...], fresh: MakeKey) -> tuple[Week, tuple[Week, ...]]:
    """Make the base week of a block that has none, and say of each of its weeks whether it comes from there."""
    base = replace(with_new_keys(weeks[0], fresh), deload=False, note="")
    return base, tuple(_linked(week, base) for week in weeks)


def _linked(week: Week, base: Week) -> Week:
    """Link the parts of a week to those of a base week that says the same; any other written week is by hand."""
    if not any(day.slots for day in week.days):
        return replace(week, days=())
    if _said(week) != _said(base):
        return replace(week, by_hand=True)
    days = tuple(
        replace(
            day,
            origin=origin.key,
            slots=tuple(replace(s, origin=o.key) for s, o in zip(day.slots, origin.slots, strict=True)),
        )
        for day, origin in zip(week.days, base.days, strict=True)
    )
    return replace(week, days=days)


def _said(week: Week) -> list[object]:
    return [
        (day.name, [replace(slot, key="", origin="", group="", by_hand=False) for slot in day.slots])
        for day in week.days
    ]
