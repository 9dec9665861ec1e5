"""Draws the individuals of a kind: no two steady clients are the same."""

from random import Random

from demo.cohort.profile import Ache, Kind, Profile, Strain
from periodization.readiness import ITEMS

# Chosen: what a coach's list might look like.
MIX: dict[Kind, float] = {
    "steady": 0.32,
    "overreacher": 0.25,
    "planned_overreach": 0.08,
    "novice": 0.10,
    "sore_elbow": 0.07,
    "stops_coming": 0.06,
    "pounds": 0.06,
    "sparse_log": 0.06,
}
FIRST_STRAIN_DAY = 21


def draw_kind(seed: int) -> Kind:
    """Return the kind of the client with this seed, by MIX."""
    rng = Random(f"kind/{seed}")
    return rng.choices(list(MIX), list(MIX.values()))[0]


def draw_profile(kind: Kind, seed: int, days: int = 168) -> Profile:
    """Return an individual of `kind`; the same seed gives the same one."""
    rng = Random(f"profile/{kind}/{seed}")
    values: dict[str, object] = {
        "strength": rng.lognormvariate(0, 0.2),
        "start_fitness": rng.uniform(0.75, 0.95),
        "k_fitness": rng.uniform(0.15, 0.25),
        "k_fatigue": rng.uniform(0.045, 0.075),
        "tau_fitness": rng.uniform(30, 46),
        "tau_fatigue": rng.uniform(10, 18),
        "rir_bias": rng.gauss(0.95, 0.7),
        "responsiveness": rng.lognormvariate(0, 0.35),
        "set_drop": rng.uniform(0.01, 0.03),
        "restlessness": rng.lognormvariate(0, 0.3),
        "attendance": rng.uniform(0.9, 0.99),
        "check_in_share": rng.uniform(0.6, 0.95),
        "items": {name: min(4.6, max(2.8, rng.gauss(3.7, 0.35))) for name in ITEMS},
    }
    if rng.random() < 0.35:
        values["away"] = ((rng.randrange(14, max(15, days - 10)), rng.randrange(5, 11)),)
    if kind == "overreacher":
        values["strains"] = _strains(rng, days, rng.choice((1, 2)))
    elif rng.random() < 0.15:
        values["strains"] = _strains(rng, days, 1)
    if kind == "novice":
        values |= {"start_fitness": rng.uniform(0.2, 0.45), "k_fitness": rng.uniform(0.25, 0.4), "strength": 0.6}
    if kind == "sore_elbow":
        values["aches"] = (
            Ache(
                "elbow", ("triceps", "biceps"), rng.randrange(20, days // 2), rng.randrange(25, 50), rng.uniform(5, 8)
            ),
        )
    if kind == "stops_coming":
        values |= {"attendance": rng.uniform(0.7, 0.85), "stops_on": rng.randrange(days // 3, days - 7)}
    if kind == "pounds":
        values["unit"] = "lb"
    if kind == "sparse_log":
        values |= {"check_in_share": rng.uniform(0.15, 0.4), "rir_share": rng.uniform(0.3, 0.7)}
    return Profile(kind, **values)  # type: ignore[arg-type]


def _strains(rng: Random, days: int, count: int) -> tuple[Strain, ...]:
    """Return `count` strains that do not overlap, each in its own part of the time."""
    part = (days - FIRST_STRAIN_DAY) // count
    found = []
    for n in range(count):
        length = rng.randrange(18, 36)
        first = FIRST_STRAIN_DAY + n * part
        start = rng.randrange(first, max(first + 1, first + part - length))
        found.append(Strain(start, length, rng.uniform(1.5, 2.4), rng.uniform(1.2, 1.7)))
    return tuple(found)
