"""Days that train the same muscle groups under 48 hours apart."""

from collections.abc import Iterator

from django.utils.dates import WEEKDAYS
from django.utils.translation import gettext as _

from programs.document.edits import Operation
from programs.services.advice.model import Advice, Remedy
from programs.services.advice.scene import Scene
from programs.services.week_sums import WeekSums

LAST = 99


def too_close(scene: Scene) -> Iterator[Advice]:
    """One piece of advice for each pair of days, with the groups that are due again too soon."""
    desk = scene.desk
    days = dict(zip(desk.weekdays, desk.week.days, strict=False))
    pairs: dict[tuple[int, int], list[str]] = {}
    for group, first, second, _hours in serious(scene, desk.sums):
        pairs.setdefault((first, second), []).append(group)
    hours = {(first, second): gap for _group, first, second, gap in desk.sums.gaps}
    for (first, second), groups in sorted(pairs.items()):
        params = {
            "groups": ", ".join(desk.anatomy.groups[group] for group in groups),
            "hours": hours[first, second],
            "first": f"{days[first].name} ({WEEKDAYS[first]})",
            "second": f"{days[second].name} ({WEEKDAYS[second]})",
        }
        said = (
            _("%(groups)s: due on %(first)s and again on %(second)s of the next week, under 48 hours later.")
            if second <= first
            else _("%(groups)s: due on %(first)s and again on %(second)s, under 48 hours later.")
        )
        remedy = _move(scene, groups, days[first].key, days[second].key)
        yield Advice(
            "gap",
            f"{days[first].key}-{days[second].key}",
            said % params,
            _("A muscle that was trained hard is given two days, a chosen minimum.")
            if remedy
            else _("No single move mends this. Other weekdays, chosen below, may."),
            (remedy,) if remedy else (),
        )


def serious(scene: Scene, sums: WeekSums) -> list[tuple[str, int, int, int]]:
    """Leave out the groups without a floor: what is only trained along, as the grip is, needs no days of its own."""
    return [gap for gap in sums.gaps if scene.desk.targets[gap[0]].floor > 0]


def _move(scene: Scene, groups: list[str], first: str, second: str) -> Remedy | None:
    """Propose the move of one slot that leaves the fewest gaps, if it leaves fewer than there are."""
    week = scene.desk.week
    options = [
        (slot, other, Operation("move-slot", {"slot": slot.key, "day": other.key, "index": LAST}))
        for day in week.days
        if day.key in (first, second)
        for slot in day.slots
        if any(scene.share(slot, group) > 0 for group in groups)
        for other in week.days
        if other.key != day.key
    ]
    made = [(slot, other, operation, *after) for slot, other, operation in options if (after := scene.after(operation))]
    now = len(serious(scene, scene.desk.sums))
    better = [one for one in made if len(serious(scene, one[4])) < now]
    best = min(better, key=lambda one: (len(serious(scene, one[4])), round(scene.harm(one[4]), 6)), default=None)
    if best is None:
        return None
    slot, other, operation, after, sums = best
    words = _("Move %(name)s to %(day)s") % {"name": scene.name(slot), "day": other.name}
    return scene.remedy(words, (operation, after, sums), groups[0])
