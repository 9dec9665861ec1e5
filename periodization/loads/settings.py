"""Every setting of a ladder, easiest first."""

from functools import lru_cache
from itertools import combinations

from periodization.loads.ladders import (
    Assisted,
    BodyWeightPlus,
    FixedSteps,
    Listed,
    LoadLadder,
    NoLoad,
    PlatePairs,
    Stack,
)

# Sums are made in whole millionths of a kilogram: plates in pounds must add up to the same load in any order.
_GRAIN = 1_000_000
# A rack with more different loads than this is a typing error; it would also take long to list.
MOST_SETTINGS = 20_000


def _grains(kg: float) -> int:
    return round(kg * _GRAIN)


@lru_cache(maxsize=512)
def plate_sums(ladder: PlatePairs) -> dict[int, tuple[float, ...]]:
    """Map each sum on one side (in millionths of a kg) to the fewest plates that make it, heaviest first."""
    sums: dict[int, tuple[float, ...]] = {0: ()}
    for plate, count in sorted(ladder.pairs, reverse=True):
        grown = dict(sums)
        for total, used in sums.items():
            for n in range(1, count + 1):
                key, plates = total + n * _grains(plate), used + (plate,) * n
                if key not in grown or (-len(plates), plates) > (-len(grown[key]), grown[key]):
                    grown[key] = plates
        sums = grown
        if len(sums) > MOST_SETTINGS:
            raise ValueError(f"These plates make more than {MOST_SETTINGS} different loads. Check the list.")
    return sums


@lru_cache(maxsize=512)
def settings_of(ladder: LoadLadder) -> tuple[float, ...]:
    """Return every setting in kg from the easiest set to the hardest: ascending, but descending help if assisted."""
    match ladder:
        case FixedSteps(minimum, maximum, step):
            count = int((maximum - minimum) / step + 1e-9) + 1
            grains = {_grains(minimum + i * step) for i in range(count)}
        case Listed(values):
            grains = {_grains(v) for v in values}
        case PlatePairs(bar, _):
            grains = {_grains(bar) + 2 * side for side in plate_sums(ladder)}
        case Stack(pins, add_ons):
            sums = {sum(map(_grains, some)) for n in range(len(add_ons) + 1) for some in combinations(add_ons, n)}
            grains = {_grains(pin) + extra for pin in pins for extra in sums}
        case NoLoad():
            grains = {0}
        case BodyWeightPlus(inner):
            grains = {0} | {_grains(kg) for kg in settings_of(inner)}
        case Assisted(inner):
            help_kg = {0} | {_grains(kg) for kg in settings_of(inner)}
            return tuple(g / _GRAIN for g in sorted(help_kg, reverse=True))
    return tuple(g / _GRAIN for g in sorted(grains))
