"""One exercise: from true strength to the set that gets written down."""

import math
from collections.abc import Sequence
from random import Random

from demo.cohort.plan import CohortSlot
from demo.cohort.profile import Profile
from demo.cohort.records import LoggedSet
from periodization.loads import NoLoad, at_or_below, effective_load, setting_for, settings_of
from periodization.progression import Target
from periodization.strength import load_for
from periodization.trend import report_error
from periodization.units import from_kg

# Chosen: the first time, people pick a load somewhat under what they could do.
FIRST_LOAD_SHARE, FIRST_LOAD_SD = 0.95, 0.05
# Chosen: a part of the error of a report is the same for all sets of a session.
SHARED_REPORT_PART = 0.5


class Lifter:
    """Performs the slots of one exercise for one client."""

    def __init__(self, profile: Profile, slot: CohortSlot, seed: str) -> None:
        self.profile = profile
        own = Random(f"{seed}/{slot.exercise}/person")
        self.rng = Random(f"{seed}/{slot.exercise}/sets")
        self.one_rm = slot.one_rm_kg * profile.strength * own.lognormvariate(0, 0.1)
        # People differ widely in how many repetitions they can do at the same share of their maximum.
        self.endurance = own.lognormvariate(0, 0.15)

    def perform(
        self, slot: CohortSlot, target: Target, log_strength: float, ids: Sequence[str]
    ) -> tuple[list[LoggedSet], float, float]:
        """Return the sets, one for each id, the strength (1RM in kg) of the moment, and the true RIR at the target."""
        p, rng = self.profile, self.rng
        strength = self.one_rm * math.exp(log_strength + rng.gauss(0, p.exercise_day_sd))
        setting = self._setting(slot, target, strength)
        shared = rng.gauss(0, 1)
        sets = []
        for number, set_id in enumerate(ids, 1):
            fresh = strength * math.exp(-p.set_drop * (number - 1))
            left_at_start = self._reps_to_failure(slot, setting, fresh)
            error = math.sqrt(SHARED_REPORT_PART) * shared + math.sqrt(1 - SHARED_REPORT_PART) * rng.gauss(0, 1)
            reps, true_left, felt = self._stop(slot, target, left_at_start, error)
            reported: float | None = float(round(min(10.0, felt)))
            if rng.random() > p.rir_share:
                reported = None
            typed = setting * (10 if rng.random() < p.slips else 1)
            load = round(from_kg(typed, p.unit), 2)
            sets.append(LoggedSet(set_id, number, load, p.unit, typed, reps, reported, true_left))
        return sets, strength, self._reps_to_failure(slot, setting, strength, least=None) - target.reps

    def _setting(self, slot: CohortSlot, target: Target, strength: float) -> float:
        if target.load_kg is not None:
            return target.load_kg
        share = FIRST_LOAD_SHARE * math.exp(self.rng.gauss(0, FIRST_LOAD_SD))
        wanted = share * load_for(strength, slot.reps_max, slot.rir_max)
        setting = setting_for(slot.ladder, wanted, slot.body_kg)
        found = None if setting is None else at_or_below(slot.ladder, setting)
        return settings_of(slot.ladder)[0] if found is None else found

    def _reps_to_failure(self, slot: CohortSlot, setting: float, strength: float, least: float | None = 0.0) -> float:
        """Invert Epley with the person's own number of repetitions; a load over the maximum gives none."""
        moved = effective_load(slot.ladder, setting, slot.body_kg)
        if isinstance(slot.ladder, NoLoad) or not moved:
            moved = slot.one_rm_kg / (1 + (slot.reps_max + 2) / 30)
        reps = 30 * self.endurance * (strength / moved - 1)
        return reps if least is None else max(least, reps)

    def _stop(self, slot: CohortSlot, target: Target, limit: float, error: float) -> tuple[int, float, float]:
        """Repeat until it feels like the prescribed effort; return repetitions, what was left, what it felt like."""
        reps, most = 0, max(slot.reps_max, target.reps)
        while True:
            left = limit - reps
            sd = max(0.3, report_error(min(10.0, max(0.0, left))))
            felt = max(0.0, left - self.profile.rir_bias + sd * error)
            enough = felt <= slot.rir_min or (reps >= target.reps and felt <= slot.rir_max) or reps >= most
            if left < 1 or (reps >= 1 and enough):
                return reps, max(0.0, left), felt if left >= 1 else 0.0
            reps += 1
