"""The published change of load for a reported RIR."""

import math

# J Hum Kinet 2024;91(Spec):87-103, table 1D: target 2 RIR; 4-6 reported: +5.0 kg, 3: +2.5, 2: 0, 1: -2.5, 0: -5.0.
KG_PER_REP = 2.5
MOST_KG = 5.0


def table_change_kg(reported: float, target: float) -> float:
    """Return the change of load in kg for a set that left `reported` where `target` was wanted, -5.0 to +5.0.

    The printed table is for a target of 2; carried over to other targets by the difference. A part of a repetition
    counts only when it makes the load lighter, so a report between two rows never gives the heavier one.
    """
    return max(-MOST_KG, min(MOST_KG, KG_PER_REP * math.floor(reported - target + 1e-9)))
