"""Heavier and lighter along a ladder, in percent of what the muscles move."""

from periodization.loads import LoadLadder, at_or_below, effective_load, next_down, next_up, setting_for
from periodization.progression.target import ProgressionSettings
from periodization.progression.work import hardness, needs_body

# Loads marked in pounds are kept in kilograms to a milligram: 50 to 55 lb is 10 %, and not a hair more.
SAME_SHARE = 1e-6


def percent_up(ladder: LoadLadder, old: float, new: float, body: float | None) -> float | None:
    """Return how much more `new` moves than `old`, as a share; None when it cannot be said."""
    before, after = effective_load(ladder, old, body), effective_load(ladder, new, body)
    return None if before is None or after is None or before <= 0 else after / before - 1


def step_up(
    ladder: LoadLadder, load: float, body: float | None, s: ProgressionSettings, wanted_kg: float = 0.0
) -> tuple[float | None, float | None]:
    """Return (setting, share) of the smallest real increment of at least `step_min` inside `step_max`.

    With `wanted_kg` the largest setting up to that many kg more is taken, still inside `step_max`. The setting is None
    when nothing fits; the share is then that of the first increment that is too large, or None when there is none.
    """
    found: tuple[float, float] | None = None
    at = load
    while (up := next_up(ladder, at)) is not None:
        share = percent_up(ladder, load, up, body)
        if share is None:
            return None, None
        if share > s.step_max + SAME_SHARE:
            return (found[0], found[1]) if found else (None, share)
        if share >= s.step_min - SAME_SHARE:
            if found is None or abs(up - load) <= wanted_kg + 1e-9:
                found = (up, share)
            if abs(up - load) >= wanted_kg - 1e-9:
                return found
        at = up
    return found if found else (None, None)


def lighter(ladder: LoadLadder, load: float, body: float | None, kg: float) -> float | None:
    """Return the real setting at least `kg` of moved load lighter; None when there is no lighter one.

    With an unknown body mass, where percent and kg cannot be judged, one step of the ladder.
    """
    moved = effective_load(ladder, load, body)
    one_down = next_down(ladder, load)
    if one_down is None or (moved is None and needs_body(ladder)):
        return one_down
    wanted = setting_for(ladder, max(0.0, (moved or 0.0) - kg), body)
    found = None if wanted is None else at_or_below(ladder, wanted)
    if found is None or hardness(ladder, found) > hardness(ladder, one_down):
        return one_down
    return found


def real(ladder: LoadLadder, load: float) -> float:
    """Return the hardest setting not harder than `load`; the load itself when it lies under the whole ladder."""
    found = at_or_below(ladder, load)
    return load if found is None else found
