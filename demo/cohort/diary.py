"""What the client says: check-ins, sore muscles, pain."""

import math
from collections.abc import Iterable
from datetime import date
from random import Random

from demo.cohort.body import Body
from demo.cohort.profile import Profile
from periodization.flags import CheckInFact, PainFact
from periodization.readiness import ITEMS

# Points lost per item when fatigue takes 5 % more strength than usual: chosen, together 3.3 of 25, since five days of
# squatting moved another well-being index by a third (Bell 2025). Those of an illness are chosen.
FATIGUE_POINTS = {"fatigue": 1.0, "sleep": 0.5, "soreness": 0.7, "stress": 0.4, "mood": 0.7}
ILLNESS_POINTS = {"fatigue": 1.4, "sleep": 0.8, "soreness": 0.8, "stress": 0.3, "mood": 0.7}
PER_EXCESS = 0.05
# Chosen: life outside the gym moves all items together for days, and each item by itself every day.
LIFE_SD, LIFE_KEPT, ITEM_SD = 0.3, 0.75, 0.55
# Chosen: soreness per group, in sets; kept longer when overreached.
SORE_DAYS, SORE_FROM, SORE_SD = 1.1, 2.6, 0.35


class Diary:
    """Writes the client's own reports from the hidden state."""

    def __init__(self, profile: Profile, rng: Random, name: str) -> None:
        self.profile, self.rng, self.name = profile, rng, name
        self.life = 0.0
        self.sore: dict[str, float] = {}

    def wake(self, body: Body) -> None:
        """Begin a day: life goes on, soreness fades."""
        fresh = LIFE_SD * math.sqrt(1 - LIFE_KEPT**2)
        self.life = LIFE_KEPT * self.life + self.profile.restlessness * self.rng.gauss(0, fresh)
        days = SORE_DAYS * (1 + max(0.0, body.excess) / PER_EXCESS)
        self.sore = {group: sets * math.exp(-1 / days) for group, sets in self.sore.items()}

    def trained(self, groups: Iterable[tuple[str, float]]) -> None:
        """Add the sets of a session to the soreness of their groups."""
        for group, sets in groups:
            self.sore[group] = self.sore.get(group, 0.0) + sets

    def check_in(self, day: date, body: Body) -> CheckInFact | None:
        """Return the day's check-in, or None when the client leaves it out."""
        p, rng = self.profile, self.rng
        tired = p.responsiveness * body.excess / PER_EXCESS
        ill = 1.0 if body.ill else 0.0
        worst = max(self.sore.values(), default=0.0)
        values = {}
        for name in ITEMS:
            level = p.items.get(name, 3.7) + self.life - tired * FATIGUE_POINTS[name] - ill * ILLNESS_POINTS[name]
            if name == "soreness":
                level -= 0.15 * worst
            values[name] = float(min(5, max(1, round(level + p.restlessness * rng.gauss(0, ITEM_SD)))))
        felt = [g for g, sets in sorted(self.sore.items()) if sets * rng.lognormvariate(0, SORE_SD) > SORE_FROM]
        named = tuple(g for g in felt if rng.random() < p.names_sore_muscles)
        if rng.random() > p.check_in_share:
            return None
        return CheckInFact(day, f"{self.name}/check-in/{day}", **values, sore_groups=named)

    def pain(self, day: date, index: int, exercise: str, groups: tuple[str, ...]) -> PainFact | None:
        """Return a report of pain during an exercise: an ache of the profile, or now and then a small one."""
        rng = self.rng
        for ache in self.profile.aches:
            if ache.start <= index < ache.start + ache.days and set(ache.groups) & set(groups):
                shape = math.sin(math.pi * (index - ache.start + 1) / (ache.days + 1))
                score = round(ache.peak * shape + rng.gauss(0, 0.8))
                if score >= 1 and rng.random() < 0.8:
                    return PainFact(
                        f"{self.name}/pain/{day}/{exercise}", day, float(min(10, score)), ache.site, exercise
                    )
        if rng.random() < 0.002:
            score = rng.choice((1, 2, 2, 3, 4))
            return PainFact(f"{self.name}/pain/{day}/{exercise}", day, float(score), "other", exercise)
        return None
