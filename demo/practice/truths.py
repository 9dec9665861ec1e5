"""What really happens to each invented client. Days count from the first day of the sixteen weeks."""

from dataclasses import replace

from demo.cohort.profile import Ache, Profile, Stall, Strain
from demo.practice.people import Person

WEEK = 7


def profile_of(person: Person) -> Profile:
    """Return the simulated course that `person.truth` names; ValueError for a name that is none."""
    base = Profile(
        kind="pounds" if person.unit == "lb" else "steady", unit=person.unit, strength=0.55 + person.mass_kg / 160
    )
    novice = replace(base, kind="novice", strength=base.strength * 0.7, start_fitness=0.35, k_fitness=0.3)
    elbow = Ache("elbow", ("triceps",), 12 * WEEK + 4, 5 * WEEK, 6.0)
    courses = {
        "steady": base,
        "novice": novice,
        "overreaching": replace(base, kind="overreacher", strains=(Strain(13 * WEEK, 4 * WEEK, 1.9, 1.6),)),
        "sore_elbow": replace(base, kind="sore_elbow", aches=(elbow,)),
        "stops_coming": replace(base, kind="stops_coming", stops_on=13 * WEEK + 2),
        "misses_sessions": replace(base, attendance=0.68),
        "ill_for_a_week": replace(base, away=((14 * WEEK, 8),), illness_per_year=4),
        # Habitually stops early, so effort and volume fall short of what was asked.
        "easy_sets": replace(base, rir_bias=-1.5),
        # One lift goes back while all others hold: a changed stance, say.
        "one_lift_falls_back": replace(base, k_fitness=0.05, stalls=(Stall("leg-press", 12 * WEEK + 5, 10, 0.2),)),
        "bad_sleep": replace(base, items={"sleep": 2.4, "stress": 2.8}, strains=(Strain(15 * WEEK, 10, 1.3, 1.2),)),
    }
    if person.truth not in courses:
        raise ValueError(f"{person.name}: no course is called {person.truth!r}.")
    return courses[person.truth]
