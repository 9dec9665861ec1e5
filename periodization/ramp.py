"""A block of weeks from start and peak sets: sets rise, repetitions in reserve fall, then a deload."""

from collections.abc import Mapping
from dataclasses import dataclass

from periodization.deload import DEFAULT as DELOAD
from periodization.deload import reduced_sets
from periodization.rules import Reason, Rule
from periodization.targets import TargetRange

RULE = Rule("ramp.linear", 1, "straight line, chosen; deload share and RIR as in deload.prompt")


@dataclass(frozen=True, slots=True)
class RampWeek:
    """One week of one muscle group: hard sets and the RIR to aim at. `notes` say where it leaves the target range."""

    number: int
    sets: int
    rir: int
    deload: bool
    notes: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class RampSpec:
    """`start_sets` to `peak_sets` a week, `rir_from` to `rir_to`; the weekly `target` range may be unknown."""

    start_sets: int
    peak_sets: int
    rir_from: int
    rir_to: int
    target: TargetRange | None = None


def plan_ramp(
    weeks: int,
    spec: RampSpec,
    deload: bool = True,
    deload_share: float = DELOAD.sets_share,
    deload_rir_up: int = DELOAD.rir_up,
) -> tuple[RampWeek, ...]:
    """Return `weeks` weeks, the last of them the deload when asked for.

    Sets never fall and RIR never rises inside the block; the deload has fewer sets than the first week (its share is
    taken of the peak) and its RIR is `deload_rir_up` above the first week's. Values that cannot be such a block are a
    ValueError in plain words.
    """
    _check(weeks, spec, deload, deload_share)
    rising = weeks - 1 if deload else weeks
    plan = []
    every_sets = straight_line(spec.start_sets, spec.peak_sets, rising)
    every_rir = straight_line(spec.rir_from, spec.rir_to, rising)
    for i, (sets, rir) in enumerate(zip(every_sets, every_rir, strict=True), 1):
        plan.append(RampWeek(i, sets, rir, False, _notes(sets, spec.target)))
    if deload:
        sets = deload_sets(spec.start_sets, spec.peak_sets, deload_share)
        notes = tuple(
            Reason("ramp_deload_under_floor", n.params) if n.code == "ramp_under_floor" else n
            for n in _notes(sets, spec.target)
        )
        plan.append(RampWeek(weeks, sets, spec.rir_from + deload_rir_up, True, notes))
    return tuple(plan)


def straight_line(first: int, last: int, weeks: int) -> tuple[int, ...]:
    """Return whole numbers from `first` to `last` over `weeks` weeks, halves rounded up; one week is all `first`."""
    return tuple(
        _half_up(first + (i / (weeks - 1) if weeks > 1 else 0.0) * (last - first)) for i in range(max(weeks, 0))
    )


def deload_sets(start: int, peak: int, share: float = DELOAD.sets_share) -> int:
    """Return the sets of a deload: `share` of the peak, below the start where that leaves one."""
    return max(1, min(reduced_sets(peak, share), start - 1))


def plan_ramps(weeks: int, specs: Mapping[str, RampSpec], deload: bool = True) -> dict[str, tuple[RampWeek, ...]]:
    """Return a ramp per muscle group, ordered by group."""
    return {group: plan_ramp(weeks, specs[group], deload) for group in sorted(specs)}


def _half_up(value: float) -> int:
    return int(value + 0.5)


def _notes(sets: int, target: TargetRange | None) -> tuple[Reason, ...]:
    if target is None:
        return ()
    params = {"sets": sets, "floor": target.floor, "ceiling": target.ceiling}
    if sets > target.ceiling:
        return (Reason("ramp_over_ceiling", params),)
    if sets < target.floor:
        return (Reason("ramp_under_floor", params),)
    return ()


def _check(weeks: int, spec: RampSpec, deload: bool, share: float) -> None:
    if weeks < (2 if deload else 1):
        raise ValueError("A block needs at least one week, and one more for its deload.")
    if not 1 <= spec.start_sets <= spec.peak_sets:
        raise ValueError("Sets must start at 1 or more and may not end lower than they start.")
    if not 0 <= spec.rir_to <= spec.rir_from:
        raise ValueError("Repetitions in reserve may not rise inside a block, nor be under 0.")
    if deload and spec.start_sets < 2:
        raise ValueError("A deload below the start needs at least 2 sets in the first week.")
    if not 0 < share < 1:
        raise ValueError("The deload's share of sets must lie between 0 and 1.")
