"""The two-component impulse-response model: every set adds fitness that stays and fatigue that goes.

strength = start + k1 * fitness - k2 * fatigue; fitness and fatigue decay by exp(-1 / tau) a day and grow with the dose
(Banister 1975; Morton 1990). A dose of 1 is the usual week.
"""

import math
from random import Random

from demo.cohort.profile import Profile

DAYS_PER_WEEK = 7
# Chosen: an illness takes this much strength at its worst and ends over some days.
ILLNESS_DROP = 0.07
ILLNESS_FADE = 0.7


# What is really left after a usual set of these clients, blocks and deloads together (read off seeds 1-60).
USUAL_RIR = 4.5


def set_dose(true_rir: float) -> float:
    """Return the dose of a set: 1 with two repetitions in reserve, more to failure, less far from it (chosen)."""
    return max(0.3, 1.3 - 0.15 * true_rir)


class Body:
    """One client's hidden state. `usual_sets` is the number of sets in a usual week."""

    def __init__(self, profile: Profile, rng: Random, usual_sets: float) -> None:
        self.profile, self.rng, self.usual_sets = profile, rng, usual_sets
        self.steady_fitness = 1 / DAYS_PER_WEEK / (1 - math.exp(-1 / profile.tau_fitness))
        self.steady_fatigue = 1 / DAYS_PER_WEEK / (1 - math.exp(-1 / profile.tau_fatigue))
        self.fitness = profile.start_fitness * self.steady_fitness
        self.fatigue = 0.7 * self.steady_fatigue
        self.ill_days = 0
        self.illness = 0.0
        self.shared_noise = 0.0
        self.day_index = -1

    def wake(self) -> None:
        """Begin the next day: decay, perhaps fall ill, draw what the whole day shares."""
        p, rng = self.profile, self.rng
        self.day_index += 1
        self.fitness *= math.exp(-1 / p.tau_fitness)
        self.fatigue *= math.exp(-1 / (p.tau_fatigue * self._strain("keep")))
        if self.ill_days:
            self.ill_days -= 1
        elif rng.random() < p.illness_per_year / 365:
            self.ill_days = rng.randrange(4, 9)
        self.illness = ILLNESS_DROP if self.ill_days else self.illness * ILLNESS_FADE
        self.shared_noise = rng.gauss(0, p.day_sd)

    def train(self, sets_dose: float) -> None:
        """Add the dose of a session, in sets."""
        dose = sets_dose / (self.usual_sets * set_dose(USUAL_RIR))
        self.fitness += dose
        self.fatigue += dose * self._strain("gain")

    @property
    def ill(self) -> bool:
        """Whether the client is ill today."""
        return self.ill_days > 0

    @property
    def excess(self) -> float:
        """Strength taken by fatigue beyond that of the usual week."""
        return self.profile.k_fatigue * (self.fatigue / self.steady_fatigue - 1)

    @property
    def log_strength(self) -> float:
        """Logarithm of today's strength against the first day's, day noise included."""
        p = self.profile
        gained = p.k_fitness * (self.fitness / self.steady_fitness - p.start_fitness)
        return gained - self.excess - self.illness + self.shared_noise

    def _strain(self, which: str) -> float:
        factors = [
            float(getattr(s, which)) for s in self.profile.strains if s.start <= self.day_index < s.start + s.days
        ]
        return max(factors, default=1.0)
