"""An estimate for every working set, and the one set that stands for an exercise in a session."""

from collections import defaultdict
from dataclasses import dataclass
from uuid import UUID

from django.conf import settings

from coaching.recompute.adapters import mass_on
from coaching.recompute.calendar import MASS_VALID
from coaching.recompute.rows import Log, SetRow
from periodization.loads import Assisted, BodyWeightPlus, effective_load
from periodization.rules import Rule
from periodization.sides import RULE as SIDES_RULE
from periodization.sides import side_difference
from periodization.strength import StrengthEstimate, estimate_e1rm
from periodization.trend import TrendPoint, trend_point

RULE = Rule("strength.session_point", 2, "best trusted set of the weaker side, chosen")
# Under this an estimate only stands where nothing better was done in the session.
TRUSTED = 0.5


@dataclass(frozen=True)
class SetEstimate:
    """A working set with what it says about strength; `estimate` is None when nothing can be said, for `why_not`."""

    row: SetRow
    effective_kg: float | None
    mass: tuple[str, float] | None
    estimate: StrengthEstimate | None
    point: TrendPoint | None
    why_not: str
    body_share: float = 1.0


def estimate_sets(log: Log) -> dict[UUID, SetEstimate]:
    """Estimate each working set of the log on its own."""
    return {row.id: _estimate(log, row) for row in log.sets if not row.warm_up}


def _estimate(log: Log, row: SetRow) -> SetEstimate:
    exercise = log.exercises[row.exercise_id]
    if not exercise.in_reps:
        return SetEstimate(row, None, None, None, None, "not_in_repetitions")
    ladder = exercise.ladder
    with_body = isinstance(ladder, BodyWeightPlus | Assisted)
    mass = mass_on(log, row.date, MASS_VALID) if with_body else None
    if with_body and mass is None:
        return SetEstimate(row, None, None, None, None, "body_mass_unknown")
    load = effective_load(ladder, row.load_kg, mass[1] * exercise.body_share if mass else None)
    if not load:
        return SetEstimate(row, load, mass, None, None, "no_load_left" if with_body else "no_load")
    estimate = estimate_e1rm(load, row.reps, row.rir, settings.E1RM_EQUATION)
    if estimate is None:
        return SetEstimate(row, load, mass, None, None, "reps_out_of_range")
    return SetEstimate(row, load, mass, estimate, trend_point(row.date, estimate, row.rir), "", exercise.body_share)


Key = tuple[UUID, int]
BothSides = tuple[SetEstimate, SetEstimate]


def session_points(estimates: dict[UUID, SetEstimate]) -> dict[Key, SetEstimate]:
    """Return the set that stands for each (session, exercise): the best of the weaker side.

    Trusted estimates go before doubtful ones, then the highest counts; ties go to the earlier set.
    """
    return {key: min(best.values(), key=_weaker) for key, best in _best_of_sides(estimates).items()}


def both_sides(estimates: dict[UUID, SetEstimate]) -> dict[Key, BothSides]:
    """Return the best set of the left and of the right side, where both can be estimated."""
    found = _best_of_sides(estimates)
    return {key: (best["left"], best["right"]) for key, best in found.items() if {"left", "right"} <= best.keys()}


def _best_of_sides(estimates: dict[UUID, SetEstimate]) -> dict[Key, dict[str, SetEstimate]]:
    sides: dict[Key, dict[str, SetEstimate]] = defaultdict(dict)
    for one in estimates.values():
        if one.estimate is None:
            continue
        best = sides[one.row.session_id, one.row.exercise_id]
        if one.row.side not in best or _rank(one) > _rank(best[one.row.side]):
            best[one.row.side] = one
    return dict(sorted(sides.items(), key=lambda kv: str(kv[0])))


def _rank(one: SetEstimate) -> tuple[bool, float]:
    assert one.estimate is not None  # noqa: S101 - only estimated sets are ranked
    return one.estimate.confidence >= TRUSTED, one.estimate.e1rm_kg


def _weaker(one: SetEstimate) -> tuple[bool, float]:
    trusted, e1rm = _rank(one)
    return not trusted, e1rm


def point_inputs(one: SetEstimate, sides: BothSides | None) -> dict[str, object]:
    """Return what a StrengthPoint keeps of its set and of both sides, so that the page can show the arithmetic."""
    estimate = one.estimate
    assert estimate is not None  # noqa: S101 - only estimated sets become points
    return {
        "set": str(one.row.id),
        "load_kg": one.row.load_kg,
        "effective_kg": one.effective_kg,
        "reps": one.row.reps,
        "rir": one.row.rir,
        "side": one.row.side,
        "body_mass": None if one.mass is None else {"id": one.mass[0], "kg": one.mass[1], "share": one.body_share},
        "formula": estimate.formula,
        "formula_version": estimate.version,
        "reps_to_failure": estimate.reps_to_failure,
        "reasons": list(estimate.reasons),
        "sd": one.point.sd if one.point else None,
        "sides": _sides_json(*sides) if sides else None,
        "rule": [RULE.id, RULE.version],
    }


def _sides_json(left: SetEstimate, right: SetEstimate) -> dict[str, object]:
    (left_kg, left_sd), (right_kg, right_sd) = _observed(left), _observed(right)
    found = side_difference(left_kg, right_kg, left_sd, right_sd)
    return {
        "left": {"set": str(left.row.id), "e1rm_kg": left_kg, "sd": left_sd},
        "right": {"set": str(right.row.id), "e1rm_kg": right_kg, "sd": right_sd},
        "percent": [found.low, found.percent, found.high],
        "rule": [SIDES_RULE.id, SIDES_RULE.version],
    }


def _observed(one: SetEstimate) -> tuple[float, float]:
    assert one.point is not None  # noqa: S101 - only estimated sets are sides
    return one.point.e1rm_kg, one.point.sd
