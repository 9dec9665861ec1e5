"""Targets that are not heavier than the last work: hold, reduce, or, where nothing is lighter, an easier variant."""

from periodization.loads import at_or_below, next_down, setting_for
from periodization.progression.steps import lighter, real, step_up
from periodization.progression.table import table_change_kg
from periodization.progression.target import Target
from periodization.progression.work import Case, Work, hardness
from periodization.rules import Param
from periodization.strength import load_for


class Base:
    """Builds targets from the last work."""

    def __init__(self, last: Work, case: Case) -> None:
        self.last, self.case = last, case

    def hold(self, code: str, params: dict[str, Param], load: float | None = None) -> Target:
        """Return the same load, or the given lighter one, and the repetitions of the weakest set inside the range.

        Where no step of load fits, and repetitions went on past the range, they are held there: to ask for the range
        again would be less than was done, for no reason.
        """
        p, s = self.case.asked, self.case.settings
        past = load is None and step_up(self.case.ladder, self.last.load_kg, self.case.body_kg, s)[0] is None
        reps = max(p.reps_min, min(self.last.fewest, p.reps_max + (s.reps_past_top if past else 0)))
        kept = real(self.case.ladder, self.last.load_kg if load is None else load)
        return Target(kept, reps, "hold", code, params, self.last.evidence)

    def nothing_lighter(self, code: str, params: dict[str, Param]) -> Target:
        """Return a hold whose words name the easier variant where one is known."""
        if self.case.variants.easier:
            return self.hold(f"{code}_variant", {**params, "variant": self.case.variants.easier})
        return self.hold(code, params)

    def less(self, kg: float, code: str, params: dict[str, Param]) -> Target | None:
        """Return the real load at least `kg` of moved load lighter; None where nothing is lighter."""
        found = lighter(self.case.ladder, self.last.load_kg, self.case.body_kg, kg)
        if found is None:
            return None
        named: dict[str, Param] = {**params, "load": round(found, 2)}
        return Target(found, self.case.asked.reps_min, "reduce", code, named, self.last.evidence)

    def share(self, share: float, code: str, params: dict[str, Param]) -> Target:
        """Return the real load at that share of the last."""
        moved = self.case.moved(self.last.load_kg) or 0.0
        return self.less(moved * (1 - share), code, params) or self.hold("hold_lightest", {})


def new_range(base: Base, formula: str) -> Target | None:
    """A prescription of more repetitions than before needs a lighter load, read off the last estimates."""
    case, last = base.case, base.last
    p, asked = case.asked, last.exposure.reps_min
    if asked is None or p.reps_min <= asked or last.fewest >= p.reps_min:
        return None
    known = [s.e1rm_kg for s in last.sets if s.e1rm_kg is not None]
    moved = case.moved(last.load_kg)
    if not known or moved is None:
        return None
    wanted = load_for(min(known), p.reps_max, p.rir_max, formula)
    setting = setting_for(case.ladder, min(wanted, moved), case.body_kg)
    found = None if setting is None else at_or_below(case.ladder, setting)
    if found is None or hardness(case.ladder, found) >= hardness(case.ladder, last.load_kg):
        return None
    params: dict[str, Param] = {"load": round(found, 2), "reps": p.reps_max, "rir": p.rir_max}
    return Target(found, p.reps_min, "reduce", "new_range", params, last.evidence)


def too_hard(base: Base, before: list[Work]) -> Target | None:
    """Hold when effort was over the prescribed or sets under the floor; reduce when clearly so or twice in a row."""
    case, last = base.case, base.last
    p, s = case.asked, case.settings
    moved = case.moved(last.load_kg) or 0.0
    gap = 0.0 if last.mean_rir is None else p.rir_min - last.mean_rir
    earlier = before[-1].mean_rir if before else None
    again = earlier is not None and p.rir_min - earlier >= s.reduce_gap_twice
    if last.mean_rir is not None and (gap >= s.reduce_gap or (gap >= s.reduce_gap_twice and again)):
        by_table = -table_change_kg(last.mean_rir, p.rir_min) if case.counted == "reps" else s.step_max / 2 * moved
        params: dict[str, Param] = {"rir": round(last.mean_rir, 1), "wanted": p.rir_min}
        code = "reduce_effort" if case.counted == "reps" else "reduce_effort_untabled"
        kg = min(by_table, s.step_max * moved)
        # To stop a set early is no advice to who cannot do the fewest: the words about the floor follow.
        if (found := base.less(kg, code, params)) or last.fewest >= p.reps_min:
            return found or base.nothing_lighter("hold_lightest", {})
    if last.fewest < p.reps_min:
        floor: dict[str, Param] = {"floor": p.reps_min}
        if before and before[-1].fewest < p.reps_min:
            fewer_kg = s.step_max / 2 * moved
            return base.less(fewer_kg, "reduce_under_floor", floor) or base.nothing_lighter("easier_variant", floor)
        if next_down(case.ladder, last.load_kg) is None:
            return base.nothing_lighter("floor_no_lighter", floor)
        return base.hold("hold_under_floor", floor)
    if last.mean_rir is not None and gap > 0:
        return base.hold("hold_effort", {"rir": round(last.mean_rir, 1), "wanted": p.rir_min})
    return None
