"""Nothing speaks against it: more repetitions, or the smallest real step of load."""

from periodization.loads import LoadLadder, effective_load
from periodization.progression.steps import real, step_up
from periodization.progression.table import table_change_kg
from periodization.progression.target import Prescription, ProgressionSettings, Target
from periodization.progression.work import Work, needs_body
from periodization.rules import Param


def raised(last: Work, p: Prescription, ladder: LoadLadder, body: float | None, s: ProgressionSettings) -> Target:
    """Return reps up inside the range; load up once every set reached the top, or left clearly too much in reserve.

    The caller has made sure that every set is there, with its RIR, inside the range and at least at `rir_min`.
    """
    at_top = last.fewest >= p.reps_max and last.harder_or_same
    least = min(last.rirs or (0.0,))
    spare = least - p.rir_max
    wanted = table_change_kg(least, p.rir_max) if spare >= 1 else 0.0
    if at_top:
        found, share = step_up(ladder, last.load_kg, body, s, wanted)
        if found is not None and share is not None:
            params: dict[str, Param] = {"top": p.reps_max, "load": round(found, 2), "reps": p.reps_min}
            return _heavier(found, share, p, "add_load", params, last)
        return _past_top(last, p, ladder, body, share, s)
    if spare >= 1 and last.harder_or_same:
        found, share = step_up(ladder, last.load_kg, body, s, wanted)
        if found is not None and share is not None:
            params = {"spare": int(spare), "rir": p.rir_max, "load": round(found, 2)}
            return _heavier(found, share, p, "add_load_effort", params, last)
    reps = min(p.reps_max, max(p.reps_min, last.fewest + 1))
    return Target(real(ladder, last.load_kg), reps, "reps_up", "add_reps", {"reps": reps}, last.evidence)


def _heavier(load: float, share: float, p: Prescription, code: str, params: dict[str, Param], last: Work) -> Target:
    named: dict[str, Param] = {**params, "percent": round(100 * share, 1)}
    return Target(load, p.reps_min, "load_up", code, named, last.evidence)


def _past_top(
    last: Work, p: Prescription, ladder: LoadLadder, body: float | None, share: float | None, s: ProgressionSettings
) -> Target:
    """No step fits: repetitions go on past the range, up to a limit, and the reason is said."""
    load, most = real(ladder, last.load_kg), p.reps_max + s.reps_past_top
    reps = min(most, last.fewest + 1)
    if last.fewest >= most:
        return Target(load, most, "hold", "reps_at_limit", {"reps": most}, last.evidence)
    moved = effective_load(ladder, last.load_kg, body)
    params: dict[str, Param] = {"top": p.reps_max, "reps": reps}
    if share is not None:
        params |= {"percent": round(100 * share, 1), "limit": round(100 * s.step_max)}
        return Target(load, reps, "reps_up", "step_too_large", params, last.evidence)
    if moved is None and needs_body(ladder):
        return Target(load, reps, "reps_up", "hold_body_unknown", {"reps": reps}, last.evidence)
    code = "no_heavier_load" if moved else "no_load_to_compare"
    return Target(load, reps, "reps_up", code, params, last.evidence)
