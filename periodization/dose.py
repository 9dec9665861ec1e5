"""Weekly volume: hard sets per head, muscle and group, planned and done alike.

A set gives each head its exercise's credit (1 direct, 0.5 indirect, any value 0..1; Pelland et al. 2024). A set is
one set at most for its muscle, so a muscle gets the largest credit among its heads, set by set, never their sum.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import fsum
from typing import Literal

from periodization.rules import Rule

Side = Literal["both", "left", "right"]
Credits = Mapping[str, float]

RULE = Rule("dose.weekly_volume", 1, "Pelland et al. 2024 (fractional credit); RIR limit chosen")
# A set with more than this in reserve is not a hard set. Chosen; reports err by more than two from 5 on (Hackett 2017).
DEFAULT_RIR_LIMIT = 4.0


@dataclass(frozen=True, slots=True)
class CountedSet:
    """One set as planned (`rir` = the upper end of what is prescribed) or as done (`rir` = as reported).

    A set of one side is half a set, so left and right together are one, and a side that was left out shows.
    """

    exercise_id: str
    rir: float | None
    warm_up: bool = False
    side: Side = "both"


@dataclass(frozen=True, slots=True)
class Volume:
    """Sets of one stretch of time. The three `by_` maps hold fractional sets; absent means none.

    `direct_by_muscle` counts sets with full credit, `total_by_muscle` every set that touches the muscle.
    `easy_sets` were over the RIR limit, `unknown_effort_sets` are counted among the hard sets but gave no RIR,
    `unmapped` are exercises without any credit.
    """

    by_head: Mapping[str, float]
    by_muscle: Mapping[str, float]
    by_group: Mapping[str, float]
    direct_by_head: Mapping[str, float]
    direct_by_muscle: Mapping[str, float]
    total_by_muscle: Mapping[str, float]
    hard_sets: float
    unknown_effort_sets: float
    easy_sets: float
    warm_up_sets: float
    unmapped: tuple[str, ...]


class _Sums:
    """Collects parts and adds them with fsum, whose result does not depend on the order of the sets."""

    def __init__(self) -> None:
        self.parts: dict[str, list[float]] = defaultdict(list)

    def add(self, shares: Mapping[str, float], weight: float) -> None:
        for key, share in shares.items():
            self.parts[key].append(share * weight)

    def result(self) -> dict[str, float]:
        return {key: fsum(self.parts[key]) for key in sorted(self.parts)}


def weekly_volume(
    sets: Iterable[CountedSet],
    credits_by_exercise: Mapping[str, Credits],
    muscle_of_head: Mapping[str, str],
    group_of_head: Mapping[str, str],
    rir_limit: float = DEFAULT_RIR_LIMIT,
) -> Volume:
    """Count the hard sets of `sets` with credit.

    A head without a muscle stands for itself; a head without a group is in none.

    Groups are of heads, not of muscles: the three parts of the deltoid are trained, and targeted, apart.

    Warm-up sets never count. A set whose effort is unknown counts, and is reported.
    """
    heads, muscles, groups, direct_heads, direct, total = (_Sums() for _ in range(6))
    tally: dict[str, float] = defaultdict(float)  # halves only: exact in any order
    unmapped = set()
    shares: dict[str, tuple[Credits, ...]] = {}
    for one in sets:
        weight = 1.0 if one.side == "both" else 0.5
        if one.warm_up:
            tally["warm_up"] += weight
            continue
        if one.rir is not None and one.rir > rir_limit:
            tally["easy"] += weight
            continue
        tally["hard"] += weight
        if one.rir is None:
            tally["unknown"] += weight
        if one.exercise_id not in shares:
            credit = _checked(one.exercise_id, credits_by_exercise.get(one.exercise_id, {}))
            shares[one.exercise_id] = _shares(credit, muscle_of_head, group_of_head)
        if not shares[one.exercise_id][0]:
            unmapped.add(one.exercise_id)
        for sums, share in zip(
            (heads, muscles, groups, direct_heads, direct, total), shares[one.exercise_id], strict=True
        ):
            sums.add(share, weight)
    return Volume(
        heads.result(),
        muscles.result(),
        groups.result(),
        direct_heads.result(),
        direct.result(),
        total.result(),
        tally["hard"],
        tally["unknown"],
        tally["easy"],
        tally["warm_up"],
        tuple(sorted(unmapped)),
    )


def _shares(
    credit: Credits, muscle_of_head: Mapping[str, str], group_of_head: Mapping[str, str]
) -> tuple[Credits, ...]:
    """Return what one set counts for heads, muscles and groups, for heads and muscles it trains directly, and for
    muscles it touches."""
    by_muscle = roll_up(credit, muscle_of_head)
    grouped = {head: share for head, share in credit.items() if head in group_of_head}
    return (
        credit,
        by_muscle,
        roll_up(grouped, group_of_head),
        {head: 1.0 for head, share in credit.items() if share == 1},
        {muscle: 1.0 for muscle, share in by_muscle.items() if share == 1},
        dict.fromkeys(by_muscle, 1.0),
    )


def roll_up(credit: Credits, parent: Mapping[str, str]) -> dict[str, float]:
    """Return ONE set's credit per parent: the largest among its children. Never use it on totals of many sets."""
    result: dict[str, float] = {}
    for child, share in credit.items():
        key = parent.get(child, child)
        result[key] = max(share, result.get(key, 0.0))
    return result


def planned_sets(exercise_id: str, sets: int, rir_high: float | None) -> tuple[CountedSet, ...]:
    """Return the sets of a slot for `weekly_volume`, judged by the easiest effort the prescription allows."""
    return (CountedSet(exercise_id, rir_high),) * sets


def _checked(exercise_id: str, credit: Credits) -> dict[str, float]:
    for head, share in credit.items():
        if not 0 <= share <= 1:
            raise ValueError(f"Credit of {exercise_id} for {head} must lie between 0 and 1, not {share}.")
    return {head: share for head, share in credit.items() if share > 0}
