"""Seven published equations that estimate a one-repetition maximum from repetitions to failure."""

import math
from collections.abc import Callable
from dataclasses import dataclass

# Past this the equations are curves without data. Brzycki and Lander even turn infinite near 37 repetitions, so
# beyond it the ratio simply grows with the repetitions: continuous, and never a heavier load than the equation's.
LAST_REP_OF_CURVE = 30.0


@dataclass(frozen=True, slots=True)
class Formula:
    """One equation. `ratio(r)` is 1RM / load at r repetitions to failure, exactly as printed by its author."""

    name: str
    version: int
    label: str
    citation: str
    standing: str
    max_reps: int
    ratio: Callable[[float], float]

    def factor(self, reps: float) -> float:
        """Return 1RM / load at `reps` to failure (>= 1, may be fractional); 1 at one repetition.

        Five of the seven equations do not give back the load at one repetition (Mayhew adds 8.9 %), so one is one
        by definition, and the values between one and two lie on the straight line to the printed value at two.
        """
        if not reps >= 1:
            raise ValueError(f"Repetitions to failure must be at least 1, not {reps}.")
        if reps < 2:
            return 1 + (reps - 1) * (self.ratio(2.0) - 1)
        if reps > LAST_REP_OF_CURVE:
            return self.ratio(LAST_REP_OF_CURVE) * reps / LAST_REP_OF_CURVE
        return self.ratio(reps)

    def predict(self, load: float, reps: float) -> float:
        """Return the estimated 1RM, in the unit of `load`."""
        return load * self.factor(reps)

    def percent(self, reps: float) -> float:
        """Return the share of 1RM, in percent, that can be lifted for `reps`."""
        return 100 / self.factor(reps)

    def inverse(self, load: float, e1rm: float) -> float:
        """Return the repetitions to failure expected with `load`; 1 when the load is the maximum or more."""
        wanted = e1rm / load
        if wanted <= 1:
            return 1.0
        low, high = 1.0, 2.0
        while self.factor(high) < wanted:
            high *= 2
        for _ in range(200):
            middle = (low + high) / 2
            low, high = (middle, high) if self.factor(middle) < wanted else (low, middle)
        return (low + high) / 2


def _epley(r: float) -> float:
    return 1 + r / 30


def _brzycki(r: float) -> float:
    return 1 / (1.0278 - 0.0278 * r)


def _lander(r: float) -> float:
    return 100 / (101.3 - 2.67123 * r)


def _lombardi(r: float) -> float:
    return float(r**0.10)


def _mayhew(r: float) -> float:
    return 100 / (52.2 + 41.9 * math.exp(-0.055 * r))


def _oconner(r: float) -> float:
    return 1 + 0.025 * r


def _wathan(r: float) -> float:
    return 100 / (48.8 + 53.8 * math.exp(-0.075 * r))


# max_reps: "no more than 10 repetitions should be used in linear equations" (Reynolds 2006); Brzycki's own limit is
# "9 or fewer". The three curved ones share the 10, because the samples they were tested on went no further.
FORMULAS: dict[str, Formula] = {
    f.name: f
    for f in (
        Formula(
            "epley",
            1,
            "Epley 1985",
            "Epley B. Poundage chart. Boyd Epley Workout, 1985:86",
            "SOURCED-2nd",
            10,
            _epley,
        ),
        Formula("brzycki", 1, "Brzycki 1993", "Brzycki M. JOPERD 1993;64(1):88-90", "SOURCED-2nd", 9, _brzycki),
        Formula("lander", 1, "Lander 1985", "Lander J. NSCA J 1985;6(6):60-61", "MEMORY", 10, _lander),
        Formula(
            "lombardi",
            1,
            "Lombardi 1989",
            "Lombardi VP. Beginning Weight Training, 1989",
            "MEMORY",
            10,
            _lombardi,
        ),
        Formula(
            "mayhew",
            1,
            "Mayhew 1992",
            "Mayhew JL et al. J Appl Sport Sci Res 1992;6(4):200-206",
            "MEMORY",
            10,
            _mayhew,
        ),
        Formula(
            "oconner",
            1,
            "O'Conner 1989",
            "O'Conner B et al. Weight Training Today, 1989",
            "MEMORY",
            10,
            _oconner,
        ),
        Formula(
            "wathan",
            1,
            "Wathan 1994",
            "Wathen D. Load assignment. Essentials of ST&C, 1994:435-446",
            "MEMORY",
            10,
            _wathan,
        ),
    )
}


def formula_named(name: str) -> Formula:
    """Return the equation called `name`; an unknown name is a ValueError that lists the known ones."""
    try:
        return FORMULAS[name]
    except KeyError:
        raise ValueError(f"Unknown equation {name!r}. Known: {', '.join(FORMULAS)}.") from None
