"""A block's weeks from its base week: what each slot's sets, RIR and load are, week by week."""

from collections import defaultdict
from dataclasses import dataclass, replace

from periodization.deload import DEFAULT as DELOAD
from periodization.dose import DEFAULT_RIR_LIMIT
from periodization.ramp import deload_sets, straight_line
from periodization.share_out import share_out
from programs.document import limits
from programs.document.model import Ramp, RampRule, Range, Slot


@dataclass(frozen=True, slots=True)
class Course:
    """Sets of one group or slot: what the base week holds, and what the weeks hold; `deload` comes after `peak`."""

    written: int
    start: int
    peak: int

    def sets(self, rising: int, deload: bool) -> tuple[int, ...]:
        weeks = straight_line(self.start, self.peak, rising)
        return (*weeks, deload_sets(self.start, self.peak)) if deload else weeks


def course(written: int, rule: RampRule) -> Course:
    """Return where sets go. A base week that holds more than the peak by now stays as it is: sets never fall."""
    start = written if rule.start is None else rule.start
    return Course(written, start, max(start, rule.peak if rule.peak is not None else start))


def prescriptions(ramp: Ramp, weeks: int) -> list[dict[str, Slot]]:
    """Return for each week the base week's slots by their key, with the sets, RIR and load of that week."""
    rising = weeks - 1 if ramp.deload else weeks
    slots = [slot for day in ramp.base.days for slot in day.slots]
    sets = _sets(ramp, slots, rising)
    return [
        {slot.key: _slot(slot, sets[slot.key][week], ramp, week, rising) for slot in slots} for week in range(weeks)
    ]


def courses(ramp: Ramp) -> dict[str, Course]:
    """Return the course of each muscle group that leads a slot of the base week, by slug ("" for none)."""
    groups, own = dict(ramp.groups), dict(ramp.slots)
    written: dict[str, int] = defaultdict(int)
    for slot in (slot for day in ramp.base.days for slot in day.slots):
        if own.get(slot.key, RampRule()).peak is None:
            written[slot.group] += slot.sets[1]
    return {group: course(sets, groups.get(group, RampRule())) for group, sets in written.items()}


def _sets(ramp: Ramp, slots: list[Slot], rising: int) -> dict[str, list[int]]:
    """Return the sets of each slot per week. A slot with sets of its own is not counted among its group's."""
    own = dict(ramp.slots)
    result: dict[str, list[int]] = {}
    pools: dict[str, list[Slot]] = defaultdict(list)
    for slot in slots:
        rule = own.get(slot.key, RampRule())
        if rule.peak is None:
            pools[slot.group].append(slot)
        else:
            result[slot.key] = list(course(slot.sets[1], rule).sets(rising, ramp.deload))
    for group, line in courses(ramp).items():
        members = pools[group]
        for total in line.sets(rising, ramp.deload):
            shares = share_out([slot.sets[1] for slot in members], total, limits.SETS[0], limits.SETS[1])
            for slot, share in zip(members, shares, strict=True):
                result.setdefault(slot.key, []).append(share)
    return result


def rule_for(ramp: Ramp, slot: Slot) -> RampRule:
    """Return RIR and load of the nearest rule that speaks of them: the slot's own, its group's, the block's."""
    near = (
        dict(ramp.slots).get(slot.key, RampRule()),
        dict(ramp.groups).get(slot.group, RampRule()),
        ramp.every,
    )
    return RampRule(
        rir=next((rule.rir for rule in near if rule.rir), None),
        load_pct=next((rule.load_pct for rule in near if rule.load_pct), 0),
    )


def _slot(slot: Slot, sets: int, ramp: Ramp, week: int, rising: int) -> Slot:
    rule = rule_for(ramp, slot)
    rest = week >= rising
    return replace(
        slot,
        sets=(max(1, sets - (slot.sets[1] - slot.sets[0])), sets),
        rir=_rir(slot.rir, rule, week, rising),
        load_pct=_load(rule.load_pct, week, rest),
    )


def _rir(written: Range, rule: RampRule, week: int, rising: int) -> Range:
    rest = week >= rising
    if rule.rir is None and not rest:
        return written
    first, last = rule.rir or (written[0], written[0])
    low = min(first + DELOAD.rir_up if rest else straight_line(first, last, rising)[week], limits.RIR[1])
    # A wide range may not make a hard set of the base week an easy one; in a deload it may.
    most = limits.RIR[1] if rest else max(low, int(DEFAULT_RIR_LIMIT))
    return low, min(low + written[1] - written[0], most)


def _load(a_week: float, week: int, rest: bool) -> float:
    if not a_week:
        return 0
    return round(DELOAD.load_share * 100 if rest else 100 + week * a_week, 1)
