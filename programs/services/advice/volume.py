"""Muscle groups under their floor or over their ceiling."""

from collections.abc import Iterator
from math import ceil

from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from programs.document.edits import Operation
from programs.document.limits import SETS
from programs.document.model import Day, Slot
from programs.document.ranges import show_range
from programs.services.advice.model import Advice, Remedy
from programs.services.advice.scene import Scene, number

# How many places of a change are tried before the best of them is proposed.
TRIED = 4


def under_floor(scene: Scene) -> Iterator[Advice]:
    """Groups that are trained, but with fewer sets than their floor. What a group gets along with others, and little of
    it, was not meant for it: an arm program is not told of the chest."""
    desk = scene.desk
    for group, target in desk.targets.items():
        sets = desk.sums.groups.get(group, 0)
        if not 0 < sets < target.floor or not (sets >= target.floor / 2 or leads_any(scene, group)):
            continue
        missing = target.floor - sets
        found = [_one_more(scene, group), _another_exercise(scene, group, missing)]
        yield Advice(
            "under",
            group,
            _("%(group)s: %(sets)s sets, under %(floor)s.")
            % {"group": capfirst(desk.anatomy.groups[group]), "sets": number(sets), "floor": number(target.floor)},
            _("Below the floor of the range, growth is likely to be slower."),
            tuple(one for one in found if one),
        )


def over_ceiling(scene: Scene) -> Iterator[Advice]:
    desk = scene.desk
    for group, target in desk.targets.items():
        sets = desk.sums.groups.get(group, 0)
        if sets <= target.ceiling:
            continue
        found = _one_less(scene, group)
        yield Advice(
            "over",
            group,
            _("%(group)s: %(sets)s sets, over %(ceiling)s.")
            % {"group": capfirst(desk.anatomy.groups[group]), "sets": number(sets), "ceiling": number(target.ceiling)},
            _("Above the ceiling, more sets cost time and recovery for little that is known to be gained."),
            (found,) if found else (),
        )


def with_sets(slot: Slot, by: int) -> Operation:
    """Return the change that gives a slot `by` sets more (or less) at both ends."""
    low, high = slot.sets[0] + by, slot.sets[1] + by
    return Operation("prescribe", {"slot": slot.key, "sets": show_range((max(low, SETS[0]), high))})


def leads_any(scene: Scene, group: str) -> bool:
    return any(scene.leads(slot, group) for slot in slots_of(scene))


def days_for(scene: Scene, group: str) -> list[Day]:
    """Return the days, first those that train the group already, then the shorter ones; empty days come last."""
    minutes = scene.desk.sums.minutes
    days = zip(scene.desk.week.days, scene.desk.sums.days, strict=True)
    ranked = sorted(days, key=lambda one: (not one[0].slots, one[1].get(group, 0) < 1, minutes[one[0].key]))
    return [day for day, _groups in ranked]


def slots_of(scene: Scene) -> list[Slot]:
    return [slot for day in scene.desk.week.days for slot in day.slots]


def _one_more(scene: Scene, group: str) -> Remedy | None:
    room = [slot for slot in slots_of(scene) if scene.leads(slot, group) and slot.sets[1] < SETS[1]]
    room.sort(key=lambda slot: (-scene.share(slot, group), slot.sets[1]))
    made = scene.best([with_sets(slot, 1) for slot in room[:TRIED]])
    if made is None:
        return None
    slot = next(one for one in room if one.key == made[0].params["slot"])
    return scene.remedy(_("Add a set to %(name)s") % {"name": scene.name(slot)}, made, group)


def _one_less(scene: Scene, group: str) -> Remedy | None:
    mine = [slot for slot in slots_of(scene) if scene.share(slot, group) > 0]
    mine.sort(key=lambda slot: (not scene.leads(slot, group), -slot.sets[1]))
    options = [with_sets(slot, -1) for slot in mine if slot.sets[1] > SETS[0]]
    made = scene.best(options[:TRIED])
    if made is not None:
        slot = next(one for one in mine if one.key == made[0].params["slot"])
        return scene.remedy(_("Drop a set of %(name)s") % {"name": scene.name(slot)}, made, group)
    made = scene.best([Operation("remove", {"key": slot.key}) for slot in mine[:TRIED]])
    if made is None:
        return None
    slot = next(one for one in mine if one.key == made[0].params["key"])
    return scene.remedy(_("Remove %(name)s") % {"name": scene.name(slot)}, made, group)


def _another_exercise(scene: Scene, group: str, missing: float) -> Remedy | None:
    there = {slot.exercise for slot in slots_of(scene)}
    offered = [
        fact
        for fact in scene.library.values()
        if fact.pk not in there and scene.shares[fact.pk].groups.get(group, 0) == 1
    ]
    if not offered:
        return None
    fact, sets = offered[0], min(3, max(1, ceil(missing)))
    days = days_for(scene, group)
    text = f"{sets} x 8-12 @ 1-2 RIR"
    made = scene.best([Operation("add-slot", {"day": day.key, "exercise": fact.pk, "text": text}) for day in days])
    if made is None:
        return None
    day = next(one for one in days if one.key == made[0].params["day"])
    params = {"sets": sets, "name": fact.name, "day": day.name}
    words = ngettext("Add %(name)s to %(day)s, %(sets)s set", "Add %(name)s to %(day)s, %(sets)s sets", sets)
    return scene.remedy(words % params, made, group)
