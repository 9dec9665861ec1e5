"""Settings against the load that the muscles move, where the body is part of it."""

from periodization.loads.ladders import Assisted, BodyWeightPlus, LoadLadder


def effective_load(
    ladder: LoadLadder, setting_kg: float, body_weight_kg: float | None, body_share: float = 1.0
) -> float | None:
    """Return the load in kg that a setting means for e1RM.

    `body_share` is the part of the body that moves (1 for a pull-up). None when the body weight is needed and unknown,
    or when the help is as much as the body: then no load is left to estimate from.
    """
    if not isinstance(ladder, BodyWeightPlus | Assisted):
        return setting_kg
    if body_weight_kg is None:
        return None
    body = body_weight_kg * body_share
    load = body - setting_kg if isinstance(ladder, Assisted) else body + setting_kg
    return load if load > 0 else None


def setting_for(
    ladder: LoadLadder, load_kg: float, body_weight_kg: float | None, body_share: float = 1.0
) -> float | None:
    """Return the setting, unrounded, that makes `load_kg`; None when the body weight is needed and unknown.

    On an assisted machine a load above the body's needs no help: 0. With added load a load under the body's cannot be
    made: 0 as well, the least there is.
    """
    if not isinstance(ladder, BodyWeightPlus | Assisted):
        return load_kg
    if body_weight_kg is None:
        return None
    body = body_weight_kg * body_share
    return max(0.0, body - load_kg if isinstance(ladder, Assisted) else load_kg - body)
