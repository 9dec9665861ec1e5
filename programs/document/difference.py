"""What differs between two documents, as codes with parameters; `difference_words` says them.

Parts are matched by key (and copies by what they say), so that a part which moved is not one that went and one that
came. A change that is the same in several weeks of a block is one change that names its weeks.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from programs.document.difference_week import Local, Pairing, week_changes
from programs.document.match import matches
from programs.document.model import Block, Document, Week
from programs.document.order import out_of_order


@dataclass(frozen=True, slots=True)
class Change:
    """`weeks`: numbers within the block (of the later document; of the earlier one for what was removed), empty for a
    change of the block itself. `every`: these are all the weeks the block has."""

    code: str
    params: Mapping[str, Any]
    block: str = ""
    day: str = ""
    weeks: tuple[int, ...] = ()
    every: bool = False


def differences(before: Document, after: Document) -> list[Change]:
    """Return what changed, block by block in the order of the later document; what was removed comes last."""
    mapped = matches(before, after)
    back = {new: old for old, new in mapped.items()}
    slots = {
        slot.key: (day, slot)
        for block in before.blocks
        for week in block.weeks
        for day in week.days
        for slot in day.slots
    }
    pairing = Pairing(mapped, back, slots)
    old_blocks = {block.key: block for block in before.blocks}
    old_weeks = {week.key: week for block in before.blocks for week in block.weeks}
    result: list[Change] = []
    moved = out_of_order([block.key for block in after.blocks], [mapped.get(block.key) for block in before.blocks])
    for block in after.blocks:
        old = old_blocks.get(back.get(block.key, ""))
        if old is None:
            result.append(Change("block-added", {"count": len(block.weeks)}, block.name))
            continue
        if old.name != block.name:
            result.append(Change("block-renamed", {"before": old.name}, block.name))
        if block.key in moved:
            result.append(Change("block-moved", {}, block.name))
        result.extend(_ramp(old, block))
        result.extend(_weeks(old, block, mapped, back))
        result.extend(_inside(block, old_weeks, pairing))
    for old in before.blocks:
        if old.key not in mapped:
            result.append(Change("block-removed", {"count": len(old.weeks)}, old.name))
    return result


def _ramp(old: Block, new: Block) -> Iterator[Change]:
    """Yield how the block ramps now; what that makes of its weeks is said week by week."""
    if (old.ramp is None) != (new.ramp is None):
        yield Change("ramp-off" if new.ramp is None else "ramp-on", {}, new.name)
    elif old.ramp and new.ramp and replace(old.ramp, base=new.ramp.base) != new.ramp:
        yield Change("ramp-changed", {}, new.name)


def _weeks(old: Block, new: Block, mapped: Mapping[str, str], back: Mapping[str, str]) -> Iterator[Change]:
    """Yield the weeks that came, went or changed places."""
    added = tuple(number for number, week in enumerate(new.weeks, 1) if week.key not in back)
    removed = tuple(number for number, week in enumerate(old.weeks, 1) if week.key not in mapped)
    moved = out_of_order([week.key for week in new.weeks], [mapped.get(week.key) for week in old.weeks])
    if added:
        yield Change("weeks-added", {}, new.name, weeks=added)
    if removed:
        yield Change("weeks-removed", {}, new.name, weeks=removed)
    if moved:
        places = tuple(number for number, week in enumerate(new.weeks, 1) if week.key in moved)
        yield Change("weeks-moved", {}, new.name, weeks=places)


def _inside(block: Block, old_weeks: Mapping[str, Week], pairing: Pairing) -> Iterator[Change]:
    """Yield what changed within the weeks of a block, the same change in several weeks once."""
    together: dict[tuple[Any, ...], tuple[Local, list[int]]] = {}
    for number, week in enumerate(block.weeks, 1):
        old = old_weeks.get(pairing.back.get(week.key, ""))
        if old is None:
            continue
        for local in week_changes(old, week, pairing):
            together.setdefault(local.sign(), (local, []))[1].append(number)
    for local, numbers in together.values():
        every = len(set(numbers)) == len(block.weeks) > 1
        yield Change(local.code, local.params, block.name, local.day, tuple(sorted(set(numbers))), every)
