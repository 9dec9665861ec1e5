"""Warm-up sets from the working load; static/logbook/warmups.js has the same rules.

tests/logbook/warm_up_cases.json asks both. Chosen, since studies do not settle the numbers: 40 % of the working
load for 8 repetitions, 60 % for 5, 80 % for 3, each at the nearest load below that the equipment makes. A step that
would repeat the one before is left out, so that a light exercise asks for fewer. Only where the load is external: help
or added load says little about what a lighter set would be.
"""

from typing import Any

STEPS = ((0.4, 8), (0.6, 5), (0.8, 3))
# Loads within 5 g are the same load (periodization/loads/steps.py).
SAME_KG = 0.005


def warm_up_sets(entry: dict[str, Any], settings: list[float], working_kg: float | None) -> list[dict[str, Any]]:
    """Return [{"load_kg", "reps"}] from light to heavy; empty where the working load or the equipment is not known.

    `settings` are the loads that the equipment makes, kg, ascending. A held or counted exercise has none.
    """
    exercise = entry["exercise"]
    if not working_kg or exercise["load_kind"] != "external" or exercise["rep_unit"] != "reps":
        return []
    found: list[dict[str, Any]] = []
    for share, reps in STEPS:
        below = [kg for kg in settings if kg <= share * working_kg + SAME_KG]
        load = below[-1] if below else None
        if load and (not found or load > found[-1]["load_kg"]):
            found.append({"load_kg": load, "reps": reps})
    return found
