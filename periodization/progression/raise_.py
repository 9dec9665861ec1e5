"""Nothing speaks against it: more repetitions, or the smallest real step of load."""

import math

from periodization.loads import next_up
from periodization.progression.steps import real, step_up
from periodization.progression.table import table_change_kg
from periodization.progression.target import Target
from periodization.progression.work import Case, Work
from periodization.rules import Param
from periodization.strength import formula_named
from periodization.strength.estimate import MAX_REPS_TO_FAILURE


def raised(last: Work, case: Case) -> Target:
    """Return reps up inside the range; load up once every set reached the top, or left clearly too much in reserve.

    The caller has made sure that every set is there, with its RIR, inside the range and at least at `rir_min`.
    """
    p, s = case.asked, case.settings
    at_top = last.fewest >= p.reps_max and last.harder_or_same
    least = min(last.rirs or (0.0,))
    # The table of loads was printed for repetitions; a second or a step in reserve is no such repetition.
    spare = least - p.rir_max if case.counted == "reps" else 0.0
    wanted = table_change_kg(least, p.rir_max) if spare >= 1 else 0.0
    if at_top:
        found, share = step_up(case.ladder, last.load_kg, case.body_kg, s, wanted)
        if found is not None and share is not None:
            params: dict[str, Param] = {"top": p.reps_max, "load": round(found, 2), "reps": p.reps_min}
            return _heavier(found, share, case, "add_load", params, last)
        return _past_top(last, case, share)
    if spare >= 1 and last.harder_or_same:
        found, share = step_up(case.ladder, last.load_kg, case.body_kg, s, wanted)
        if found is not None and share is not None:
            params = {"spare": int(spare), "rir": p.rir_max, "load": round(found, 2)}
            return _heavier(found, share, case, "add_load_effort", params, last)
    reps = min(p.reps_max, max(p.reps_min, last.fewest + _more_reps(last, case)))
    return Target(real(case.ladder, last.load_kg), reps, "reps_up", "add_reps", {"reps": reps}, last.evidence)


def _heavier(load: float, share: float, case: Case, code: str, params: dict[str, Param], last: Work) -> Target:
    named: dict[str, Param] = {**params, "percent": round(100 * share, 1)}
    return Target(load, case.asked.reps_min, "load_up", code, named, last.evidence)


def _past_top(last: Work, case: Case, share: float | None) -> Target:
    """No step fits: repetitions go on past the range, up to a limit, and the reason is said.

    `share`: by how much the next load is too large; None where there is none, or none that can be judged.
    """
    p, s = case.asked, case.settings
    load, most = real(case.ladder, last.load_kg), p.reps_max + s.reps_past_top
    reps = min(most, last.fewest + _more_reps(last, case))
    params: dict[str, Param] = {"top": p.reps_max, "reps": reps, "most": most}
    if share is not None:
        params |= {"percent": round(100 * share, 1), "limit": round(100 * s.step_max)}
        more, at_limit = "step_too_large", "limit_step"
    elif case.moved(last.load_kg) is None and next_up(case.ladder, last.load_kg) is not None:
        # There are heavier loads, but what they would be added to is not known.
        more, at_limit = "hold_body_unknown", "limit_body"
    else:
        more = "no_heavier_load" if case.moved(last.load_kg) else "no_load_to_compare"
        at_limit = "limit_top"
    if last.fewest < most:
        return Target(load, reps, "reps_up", more, params, last.evidence)
    if at_limit == "limit_step" and share is not None and share <= s.doubtful_share:
        params |= _next_load(last, case)
    if case.variants.harder and at_limit != "limit_body":
        return Target(
            load, most, "hold", f"{at_limit}_variant", {**params, "variant": case.variants.harder}, last.evidence
        )
    return Target(load, most, "hold", at_limit, params, last.evidence)


def _more_reps(last: Work, case: Case) -> int:
    """Return by how many the repetitions go up: one step, or what every set left over the highest RIR prescribed, up to
    `most_reps_up`. Only repetitions in reserve are counted so; a second or a step in reserve is no such repetition."""
    s = case.settings
    spare = min(last.rirs or (0.0,)) - case.asked.rir_max if case.counted == "reps" else 0.0
    return max(s.rep_step, min(s.most_reps_up, int(spare)))


def _next_load(last: Work, case: Case) -> dict[str, Param]:
    """Return the next load and the repetitions that the weakest of the last sets allows with it, as a way on to name.

    Nothing where these would lie under the range. A set of more repetitions to failure than an e1RM is given for counts
    as the most that one is given for, which can only make it too low.
    """
    p, up = case.asked, next_up(case.ladder, last.load_kg)
    now, moved = case.moved(last.load_kg), None if up is None else case.moved(up)
    if up is None or not now or not moved or last.rirs is None or case.counted != "reps":
        return {}
    formula = formula_named(case.formula)
    to_failure = min(one.reps + rir for one, rir in zip(last.sets, last.rirs, strict=True))
    allowed = formula.inverse(moved, formula.predict(now, min(to_failure, MAX_REPS_TO_FAILURE)))
    reps = math.floor(allowed - p.rir_max)
    return {"next_load": round(up, 2), "next_reps": min(reps, p.reps_max)} if reps >= p.reps_min else {}
