"""The next session's load and repetitions for one exercise."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from periodization.flags.facts import Exposure
from periodization.flags.flag import Flag
from periodization.loads import Assisted, LoadLadder, next_up
from periodization.progression.lower import Base, new_range, too_hard
from periodization.progression.raise_ import raised
from periodization.progression.target import (
    COUNTED_CODES,
    NO_VARIANTS,
    SETTINGS,
    Counted,
    Prescription,
    ProgressionSettings,
    Target,
    Variants,
)
from periodization.progression.work import Case, Work, doubt, hardness, read


def next_target(
    history: Sequence[Exposure],
    prescription: Prescription,
    ladder: LoadLadder,
    flags: Sequence[Flag] = (),
    today: date | None = None,
    body_kg: float | None = None,
    deload_load_share: float | None = None,
    formula: str = "epley",
    settings: ProgressionSettings | None = None,
    variants: Variants = NO_VARIANTS,
    counted: Counted = "reps",
) -> Target:
    """Return the next target from past exposures of ONE exercise (any order).

    `body_kg` is the part of the body that moves, for body-weight and assisted ladders. `deload_load_share` is given
    when the session to come belongs to a deload. `variants` are named as advice where no load fits. The load is never
    more than 10 % over the last working load, and never over it when anything needed is missing or doubtful.
    """
    case = Case(prescription, ladder, body_kg, settings or SETTINGS[counted], variants, counted, formula)
    ordered = sorted(history, key=lambda e: (e.day, e.session_id))
    found = _choose(ordered, case, flags, today, deload_load_share, formula)
    if counted == "reps" or found.code not in COUNTED_CODES:
        return found
    return replace(found, code=f"{found.code}_{counted}")


def _choose(
    ordered: Sequence[Exposure],
    case: Case,
    flags: Sequence[Flag],
    today: date | None,
    deload_load_share: float | None,
    formula: str,
) -> Target:
    p, s = case.asked, case.settings
    ids = {e.exercise_id for e in ordered}
    if stops := [f for f in flags if ids & set(f.stopped)]:
        return Target(None, p.reps_min, "stop", "stop_pain", evidence=tuple(i for f in stops for i in f.evidence_ids))
    works = [w for w in (read(e, case.ladder) for e in ordered if not e.deload) if w is not None]
    if not works:
        code = "first_time" if next_up(case.ladder, 0.0) is not None else "first_time_no_load"
        if isinstance(case.ladder, Assisted):
            code = "first_time_assisted"
        return Target(None, p.reps_max, "first", code, {"reps": p.reps_max, "rir": p.rir_max})
    last, before = works[-1], works[:-1]
    base = Base(last, case)
    if deload_load_share is not None:
        return base.share(deload_load_share, "deload_week", {})
    off = doubt(last, before, case)
    if off is not None:
        easier = min((last, before[-1]) if before else (last,), key=lambda w: hardness(case.ladder, w.load_kg))
        return base.hold("hold_doubtful", {"percent": off}, easier.load_kg)
    if today is not None and (days := (today - ordered[-1].day).days) > s.break_days:
        return base.share(s.break_share, "reduce_after_break", {"days": days})
    if ordered[-1].deload:
        return base.hold("hold_deload", {})
    if not ordered[-1].sets:
        return base.hold("hold_nothing_logged", {})
    if (target := new_range(base, formula)) or (target := too_hard(base, before)):
        return target
    return _held(base, last, flags, ids) or raised(last, case)


def _held(base: Base, last: Work, flags: Sequence[Flag], ids: set[str]) -> Target | None:
    """Return a hold when something needed is missing, or a flag speaks against more."""
    if not last.all_rated:
        return base.hold("hold_effort_unknown", {})
    if not last.complete(base.case.asked):
        wanted = last.exposure.sets_prescribed or base.case.asked.sets
        return base.hold("hold_sets_missing", {"done": len(last.exposure.sets), "sets": wanted})
    if any(f.holds(one) for f in flags for one in ids):
        return base.hold("hold_flag", {})
    return None
