"""Days that train the same muscle groups under 48 hours apart."""

from collections import Counter
from collections.abc import Iterable, Iterator

from django.utils.dates import WEEKDAYS
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from programs.document import Slot
from programs.document.edits import Operation
from programs.services.advice.model import Advice, Remedy
from programs.services.advice.scene import Scene
from programs.services.week_sums import Gap, gaps_of

LAST = 99


def too_close(scene: Scene) -> Iterator[Advice]:
    """One piece of advice for each pair of days, with the groups that are due again too soon."""
    desk = scene.desk
    days = dict(zip(desk.weekdays, desk.week.days, strict=False))
    pairs: dict[tuple[int, int], list[str]] = {}
    for group, first, second, _hours in serious(scene, desk.sums.gaps):
        pairs.setdefault((first, second), []).append(group)
    hours = {(first, second): gap for _group, first, second, gap in desk.sums.gaps}
    for (first, second), groups in sorted(pairs.items()):
        params = {
            "groups": capfirst(", ".join(desk.anatomy.groups[group] for group in groups)),
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


def serious(scene: Scene, gaps: Iterable[Gap]) -> list[Gap]:
    """Leave out the groups without a floor: what is only trained along, as the grip is, needs no days of its own."""
    return [gap for gap in gaps if scene.desk.targets[gap[0]].floor > 0]


def _move(scene: Scene, groups: list[str], first: str, second: str) -> Remedy | None:
    """Propose the move of one slot that leaves the fewest gaps, if it leaves fewer than there are."""
    week = scene.desk.week
    now = Counter(gap[0] for gap in serious(scene, scene.desk.sums.gaps))
    options = [
        (_left(scene, now, slot, here, there), slot, week.days[there])
        for here, day in enumerate(week.days)
        if day.key in (first, second)
        for slot in day.slots
        if any(scene.share(slot, group) > 0 for group in groups)
        for there in range(len(week.days))
        if there != here
    ]
    fewest = min((left for left, _slot, _day in options), default=0)
    if fewest >= now.total():
        return None
    moves = [
        (slot, day, Operation("move-slot", {"slot": slot.key, "day": day.key, "index": LAST}))
        for left, slot, day in options
        if left == fewest
    ]
    best = scene.gentlest(
        (slot, day, operation, *after) for slot, day, operation in moves if (after := scene.after(operation))
    )
    if best is None:
        return None
    slot, day, operation, after, sums = best
    words = _("Move %(name)s to %(day)s") % {"name": scene.name(slot), "day": day.name}
    return scene.remedy(words, (operation, after, sums), groups[0])


def _left(scene: Scene, now: Counter[str], slot: Slot, here: int, there: int) -> int:
    """Count the gaps that would be left with the slot on another day, from the sums alone: most moves mend nothing.
    `now` holds those there are by group; of groups that the slot does not train, they stay."""
    shares = scene.shares[slot.exercise].groups
    moved = {group: share * slot.sets[1] for group, share in shares.items() if scene.desk.targets[group].floor > 0}
    days = [{group: day[group] for group in moved if group in day} for day in scene.desk.sums.days]
    days[here] = {group: sets - moved[group] for group, sets in days[here].items()}
    days[there] = {group: days[there].get(group, 0) + sets for group, sets in moved.items()}
    stay = now.total() - sum(now[group] for group in moved)
    return stay + len(gaps_of(days, scene.desk.weekdays))
