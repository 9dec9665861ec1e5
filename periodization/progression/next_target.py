"""The next session's load and repetitions for one exercise."""

from collections.abc import Sequence
from datetime import date

from periodization.flags.facts import Exposure
from periodization.flags.flag import Flag
from periodization.loads import LoadLadder, at_or_below, effective_load, setting_for
from periodization.progression.raise_ import raised
from periodization.progression.steps import lighter, real
from periodization.progression.table import table_change_kg
from periodization.progression.target import DEFAULT, Prescription, ProgressionSettings, Target
from periodization.progression.work import Work, doubt, hardness, read
from periodization.rules import Param
from periodization.strength import load_for


def next_target(
    history: Sequence[Exposure],
    prescription: Prescription,
    ladder: LoadLadder,
    flags: Sequence[Flag] = (),
    today: date | None = None,
    body_kg: float | None = None,
    deload_load_share: float | None = None,
    formula: str = "epley",
    settings: ProgressionSettings = DEFAULT,
) -> Target:
    """Return the next target from past exposures of ONE exercise (any order).

    `body_kg` is the part of the body that moves, for body-weight and assisted ladders. `deload_load_share` is given
    when the session to come belongs to a deload. The load is never more than 10 % over the last working load, and
    never over it when anything needed is missing or doubtful.
    """
    p, s = prescription, settings
    ordered = sorted(history, key=lambda e: (e.day, e.session_id))
    ids = {e.exercise_id for e in ordered}
    if stops := [f for f in flags if ids & set(f.stopped)]:
        return Target(None, p.reps_min, "stop", "stop_pain", evidence=_ids(stops))
    works = [w for w in (read(e, ladder) for e in ordered if not e.deload) if w is not None]
    if not works:
        return Target(None, p.reps_max, "first", "first_time", {"reps": p.reps_max, "rir": p.rir_max})
    last, before = works[-1], works[:-1]
    base = _Base(last, p, ladder, body_kg, s)
    if deload_load_share is not None:
        return base.share(deload_load_share, "deload_week", {})
    off = doubt(last, before, ladder, body_kg, p, s)
    if off is not None:
        easier = min((last, before[-1]) if before else (last,), key=lambda w: hardness(ladder, w.load_kg))
        return base.hold("hold_doubtful", {"percent": off}, easier.load_kg)
    if today is not None and (days := (today - ordered[-1].day).days) > s.break_days:
        return base.share(s.break_share, "reduce_after_break", {"days": days})
    if ordered[-1].deload:
        return base.hold("hold_deload", {})
    if not ordered[-1].sets:
        return base.hold("hold_nothing_logged", {})
    if (target := _new_range(base, formula)) or (target := _too_hard(base, before)):
        return target
    if not last.all_rated:
        return base.hold("hold_effort_unknown", {})
    if not last.complete(p):
        wanted = last.exposure.sets_prescribed or p.sets
        return base.hold("hold_sets_missing", {"done": len(last.exposure.sets), "sets": wanted})
    if any(f.holds(one) for f in flags for one in ids):
        return base.hold("hold_flag", {})
    return raised(last, p, ladder, body_kg, s)


class _Base:
    """Builds targets that are not heavier than the last work."""

    def __init__(
        self, last: Work, p: Prescription, ladder: LoadLadder, body: float | None, s: ProgressionSettings
    ) -> None:
        self.last, self.p, self.ladder, self.body, self.s = last, p, ladder, body, s

    def hold(self, code: str, params: dict[str, Param], load: float | None = None) -> Target:
        reps = max(self.p.reps_min, min(self.last.fewest, self.p.reps_max))
        kept = real(self.ladder, self.last.load_kg if load is None else load)
        return Target(kept, reps, "hold", code, params, self.last.evidence)

    def less(self, kg: float, code: str, params: dict[str, Param]) -> Target:
        found = lighter(self.ladder, self.last.load_kg, self.body, kg)
        if found is None:
            return self.hold("hold_lightest", {})
        named: dict[str, Param] = {**params, "load": round(found, 2)}
        return Target(found, self.p.reps_min, "reduce", code, named, self.last.evidence)

    def share(self, share: float, code: str, params: dict[str, Param]) -> Target:
        moved = effective_load(self.ladder, self.last.load_kg, self.body)
        return self.less((moved or 0.0) * (1 - share), code, params)


def _new_range(base: _Base, formula: str) -> Target | None:
    """A prescription of more repetitions than before needs a lighter load, read off the last estimates."""
    asked = base.last.exposure.reps_min
    if asked is None or base.p.reps_min <= asked or base.last.fewest >= base.p.reps_min:
        return None
    known = [s.e1rm_kg for s in base.last.sets if s.e1rm_kg is not None]
    moved = effective_load(base.ladder, base.last.load_kg, base.body)
    if not known or moved is None:
        return None
    wanted = load_for(min(known), base.p.reps_max, base.p.rir_max, formula)
    setting = setting_for(base.ladder, min(wanted, moved), base.body)
    found = None if setting is None else at_or_below(base.ladder, setting)
    if found is None or hardness(base.ladder, found) >= hardness(base.ladder, base.last.load_kg):
        return None
    params: dict[str, Param] = {"load": round(found, 2), "reps": base.p.reps_max, "rir": base.p.rir_max}
    return Target(found, base.p.reps_min, "reduce", "new_range", params, base.last.evidence)


def _too_hard(base: _Base, before: list[Work]) -> Target | None:
    """Hold when effort was over the prescribed or sets under the floor; reduce when clearly so or twice in a row."""
    p, s, last = base.p, base.s, base.last
    gap = 0.0 if last.mean_rir is None else p.rir_min - last.mean_rir
    earlier = before[-1].mean_rir if before else None
    again = earlier is not None and p.rir_min - earlier >= s.reduce_gap_twice
    if last.mean_rir is not None and (gap >= s.reduce_gap or (gap >= s.reduce_gap_twice and again)):
        moved = effective_load(base.ladder, last.load_kg, base.body) or 0.0
        kg = min(-table_change_kg(last.mean_rir, p.rir_min), s.step_max * moved)
        params: dict[str, Param] = {"rir": round(last.mean_rir, 1), "wanted": p.rir_min}
        return base.less(kg, "reduce_effort", params)
    if last.fewest < p.reps_min:
        if before and before[-1].fewest < p.reps_min:
            moved = effective_load(base.ladder, last.load_kg, base.body) or 0.0
            return base.less(s.step_max / 2 * moved, "reduce_under_floor", {"floor": p.reps_min})
        return base.hold("hold_under_floor", {"floor": p.reps_min})
    if last.mean_rir is not None and gap > 0:
        return base.hold("hold_effort", {"rir": round(last.mean_rir, 1), "wanted": p.rir_min})
    return None


def _ids(flags: Sequence[Flag]) -> tuple[str, ...]:
    return tuple(i for f in flags for i in f.evidence_ids)
