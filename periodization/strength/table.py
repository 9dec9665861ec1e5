"""Percent of 1RM against repetitions."""

from collections.abc import Iterable
from dataclasses import dataclass

from periodization.strength.formulas import formula_named


@dataclass(frozen=True, slots=True)
class PercentRow:
    """`percent` of 1RM that the equation allows for `reps` to failure."""

    reps: int
    percent: float


def percent_table(formula: str = "epley", reps: Iterable[int] = range(1, 16)) -> tuple[PercentRow, ...]:
    """Return a row per number of repetitions, unrounded."""
    chosen = formula_named(formula)
    return tuple(PercentRow(r, chosen.percent(r)) for r in reps)
