"""Strength estimated from sets, and loads from strength."""

from periodization.strength.effort import RirRange, rpe_to_rir
from periodization.strength.estimate import StrengthEstimate, estimate_e1rm, load_for
from periodization.strength.formulas import FORMULAS, Formula, formula_named
from periodization.strength.table import PercentRow, percent_table

__all__ = [
    "FORMULAS",
    "Formula",
    "PercentRow",
    "RirRange",
    "StrengthEstimate",
    "estimate_e1rm",
    "formula_named",
    "load_for",
    "percent_table",
    "rpe_to_rir",
]
