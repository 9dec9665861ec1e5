"""Heads that a trained muscle group leaves out, and groups that nothing loads while long."""

from collections.abc import Callable, Iterator

from django.utils.text import capfirst
from django.utils.translation import gettext as _

from programs.document.edits import Operation
from programs.services.advice.model import Advice, Remedy
from programs.services.advice.scene import Scene, number
from programs.services.advice.volume import days_for, leads_any, slots_of
from programs.services.program_exercises import NEARLY_DIRECT, likeness
from programs.services.tally_facts import ExerciseFacts

# Less than a set a week is no training of a head.
COVERED = 1.0
# A group counts as trained for itself from this many sets a week on: two exercises could share them.
TRAINED = 4.0
SWAPS_TRIED = 6
# Chosen: a swap keeps half of what the two exercises give together, or it would be another plan, not another way.
ALIKE = 0.5


def uncovered(scene: Scene) -> Iterator[Advice]:
    """Groups trained for themselves with heads that get no set, where an exercise could mend it."""
    desk = scene.desk
    missing: dict[str, list[str]] = {}
    for head, group in desk.anatomy.group_of_head.items():
        if desk.sums.heads.get(head, 0) < COVERED and _trained(scene, group):
            missing.setdefault(group, []).append(head)
    for group, heads in missing.items():
        remedy = _swap(scene, group, lambda fact, heads=heads: _gives(fact, heads)) or _add(scene, group, heads)
        if remedy:
            yield Advice(
                "head",
                group,
                _("%(group)s: %(sets)s sets, and hardly one for %(heads)s.")
                % {
                    "group": capfirst(desk.anatomy.groups[group]),
                    "sets": number(desk.sums.groups[group]),
                    "heads": " · ".join(desk.anatomy.head_names[head] for head in heads),
                },
                _("A part of a muscle grows by the exercises that load it."),
                (remedy,),
            )


def never_long(scene: Scene) -> Iterator[Advice]:
    """Groups trained for themselves of which no exercise loads a head while long, where one could."""
    desk = scene.desk
    for group in desk.targets:
        if desk.sums.long.get(group, 0) > 0 or not _trained(scene, group):
            continue
        remedy = _swap(scene, group, lambda fact, group=group: _loads_long(scene, fact, group))
        if remedy:
            yield Advice(
                "long",
                group,
                _("%(group)s: no exercise loads it while it is long.")
                % {"group": capfirst(desk.anatomy.groups[group])},
                _("Load at long muscle length is one of the reasons to choose an exercise; keep one where you can."),
                (remedy,),
            )


def _trained(scene: Scene, group: str) -> bool:
    if scene.desk.sums.groups.get(group, 0) < TRAINED or scene.desk.targets[group].floor == 0:
        return False
    return leads_any(scene, group)


def _loads_long(scene: Scene, fact: ExerciseFacts, group: str) -> bool:
    return scene.shares[fact.pk].long.get(group, 0) >= NEARLY_DIRECT


def _gives(fact: ExerciseFacts, heads: list[str]) -> bool:
    return any(fact.credits.get(head, 0) >= NEARLY_DIRECT for head in heads)


def _swap(scene: Scene, group: str, wanted: Callable[[ExerciseFacts], bool]) -> Remedy | None:
    """Put an exercise that does what is wanted in the place of one most like it, if no head is lost by that."""
    library, there = scene.library, {slot.exercise for slot in slots_of(scene)}
    offers = [fact for fact in library.values() if fact.pk not in there and wanted(fact)]
    pairs = [
        (likeness(scene.facts[slot.exercise].credits, fact.credits), slot, fact)
        for slot in slots_of(scene)
        if slot.exercise in scene.facts and scene.leads(slot, group)
        for fact in offers
    ]
    pairs = [one for one in pairs if one[0] >= ALIKE]
    pairs.sort(key=lambda one: (-one[0], one[1].key, one[2].pk))
    lacking = _lacking(scene, scene.desk.sums.heads)
    swaps = (
        (slot, fact, Operation("swap", {"slot": slot.key, "exercise": fact.pk}))
        for _alike, slot, fact in pairs[:SWAPS_TRIED]
    )
    best = scene.gentlest(
        (slot, fact, operation, *after)
        for slot, fact, operation in swaps
        if (after := scene.after(operation)) and not _lacking(scene, after[1].heads) - lacking
    )
    if best is None:
        return None
    slot, fact, operation, week, sums = best
    names = {"old": scene.name(slot), "new": fact.name}
    return scene.remedy(_("Swap %(old)s for %(new)s") % names, (operation, week, sums), group)


def _add(scene: Scene, group: str, heads: list[str]) -> Remedy | None:
    there = {slot.exercise for slot in slots_of(scene)}
    fact = next((one for one in scene.library.values() if one.pk not in there and _gives(one, heads)), None)
    if fact is None:
        return None
    days = days_for(scene, group)
    text = "2 x 8-12 @ 1-2 RIR"
    made = scene.best([Operation("add-slot", {"day": day.key, "exercise": fact.pk, "text": text}) for day in days])
    if made is None:
        return None
    day = next(one for one in days if one.key == made[0].params["day"])
    return scene.remedy(_("Add %(name)s to %(day)s, 2 sets") % {"name": fact.name, "day": day.name}, made, group)


def _lacking(scene: Scene, heads) -> set[str]:
    return {head for head in scene.desk.anatomy.group_of_head if heads.get(head, 0) < COVERED}
