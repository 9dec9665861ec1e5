"""Moving along a ladder: the nearest real load, one step harder, one step easier.

Below and up are about how hard the set is. On an assisted machine `kg` is the help, so `at_or_below` looks for as much
help or more, and `next_up` for less.
"""

from periodization.loads.ladders import Assisted, LoadLadder, PlatePairs
from periodization.loads.settings import plate_sums, settings_of

# Loads within 5 g are the same load: pounds stored as rounded kilograms must find their own plate again.
SAME_LOAD_KG = 0.005


def at_or_below(ladder: LoadLadder, kg: float) -> float | None:
    """Return the hardest setting that is not harder than `kg`; None when even the easiest is."""
    found = [s for s in settings_of(ladder) if _hardness(ladder, s) <= _hardness(ladder, kg) + SAME_LOAD_KG]
    return found[-1] if found else None


def at_or_above(ladder: LoadLadder, kg: float) -> float | None:
    """Return the easiest setting that is not easier than `kg`; None when even the hardest is."""
    found = (s for s in settings_of(ladder) if _hardness(ladder, s) >= _hardness(ladder, kg) - SAME_LOAD_KG)
    return next(found, None)


def next_up(ladder: LoadLadder, kg: float) -> float | None:
    """Return the next harder setting than `kg`; None at the end of the ladder."""
    found = (s for s in settings_of(ladder) if _hardness(ladder, s) > _hardness(ladder, kg) + SAME_LOAD_KG)
    return next(found, None)


def next_down(ladder: LoadLadder, kg: float) -> float | None:
    """Return the next easier setting than `kg`; None at the start of the ladder."""
    found = [s for s in settings_of(ladder) if _hardness(ladder, s) < _hardness(ladder, kg) - SAME_LOAD_KG]
    return found[-1] if found else None


def plates_for(ladder: LoadLadder, kg: float) -> tuple[float, ...] | None:
    """Return the plates for ONE side, heaviest first; () for the bar alone; None when `kg` cannot be loaded."""
    if not isinstance(ladder, PlatePairs):
        return None
    wanted = (kg - ladder.bar) / 2
    near = [(abs(side / 1e6 - wanted), plates) for side, plates in plate_sums(ladder).items()]
    distance, plates = min(near)
    return plates if distance <= SAME_LOAD_KG / 2 else None


def _hardness(ladder: LoadLadder, kg: float) -> float:
    return -kg if isinstance(ladder, Assisted) else kg
