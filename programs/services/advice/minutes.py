"""Sessions that take longer than they may."""

from collections.abc import Iterator
from itertools import pairwise

from django.utils.translation import gettext as _

from periodization.duration import whole_minutes
from programs.document import Day
from programs.document.edits import Operation
from programs.services.advice.model import Advice, Remedy
from programs.services.advice.scene import Scene
from programs.services.advice.volume import TRIED, with_sets

# Two exercises compete when both give the same group at least this much: then one is the other's rest no more.
COMPETING = 0.5


def too_long(scene: Scene) -> Iterator[Advice]:
    desk = scene.desk
    for day in desk.week.days:
        minutes = whole_minutes(desk.sums.minutes[day.key])
        if minutes <= desk.minutes:
            continue
        found = [_pair(scene, day), _drop(scene, day)]
        yield Advice(
            "minutes",
            day.key,
            _("%(day)s: about %(minutes)s min, over %(limit)s.")
            % {"day": day.name, "minutes": minutes, "limit": desk.minutes},
            _("Longer than a session may take; the limit is set below."),
            tuple(one for one in found if one),
        )


def _pair(scene: Scene, day: Day) -> Remedy | None:
    """Pair the neighbours that save most time without taking each other's rest."""
    made = []
    for first, second in pairwise(day.slots):
        if first.pair or second.pair or _compete(scene, first.exercise, second.exercise):
            continue
        operation = Operation("pair", {"slot": first.key})
        if after := scene.after(operation):
            made.append((first, second, operation, *after))
    best = min(made, key=lambda one: one[4].minutes[day.key], default=None)
    if best is None or whole_minutes(best[4].minutes[day.key]) >= whole_minutes(scene.desk.sums.minutes[day.key]):
        return None
    first, second, operation, week, sums = best
    names = {"first": scene.name(first), "second": scene.name(second)}
    return scene.remedy(_("Pair %(first)s with %(second)s") % names, (operation, week, sums))


def _compete(scene: Scene, one: int, other: int) -> bool:
    groups, others = (scene.shares[pk].groups if pk in scene.shares else {} for pk in (one, other))
    return any(share >= COMPETING and others.get(group, 0) >= COMPETING for group, share in groups.items())


def _drop(scene: Scene, day: Day) -> Remedy | None:
    """Take a set from where the week can spare it most."""
    slots = sorted((slot for slot in day.slots if slot.sets[1] > 1), key=lambda slot: -_spare(scene, slot.exercise))
    made = scene.best([with_sets(slot, -1) for slot in slots[:TRIED]])
    if made is None:
        return None
    slot = next(one for one in slots if one.key == made[0].params["slot"])
    return scene.remedy(_("Drop a set of %(name)s") % {"name": scene.name(slot)}, made)


def _spare(scene: Scene, exercise: int) -> float:
    """Return how far over its floor the group stands that needs the exercise most."""
    groups = scene.shares[exercise].groups if exercise in scene.shares else {}
    over = [
        scene.desk.sums.groups.get(group, 0) - scene.desk.targets[group].floor
        for group, share in groups.items()
        if share >= COMPETING
    ]
    return min(over, default=99)
