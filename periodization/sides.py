"""Left against right in a one-sided exercise: description, with how far it can be trusted."""

import math
from dataclasses import dataclass

from periodization.rules import Rule

RULE = Rule("strength.side_difference", 1, "share of the stronger side: MEMORY; interval derived")
Z90 = 1.645


@dataclass(frozen=True, slots=True)
class SideDifference:
    """`percent` of the stronger side: minus when the left is weaker, plus when the right is; `low` to `high` hold it
    with 90 % certainty."""

    percent: float
    low: float
    high: float


def side_difference(left_kg: float, right_kg: float, left_sd: float, right_sd: float) -> SideDifference:
    """Compare the e1RM of both sides, in kg above 0; the SDs are those of their logarithms.

    The difference is (stronger - weaker) / stronger, after Bishop et al. 2018 (MEMORY). The interval takes the two
    errors as independent; both sides share the equation's error, so it is rather too wide than too narrow.
    Raises ValueError for a load that is not above 0, or an SD below 0.
    """
    if not (left_kg > 0 and right_kg > 0):
        raise ValueError("Both estimates must be above 0.")
    if left_sd < 0 or right_sd < 0:
        raise ValueError("An SD cannot be below 0.")
    middle = math.log(left_kg / right_kg)
    reach = Z90 * math.hypot(left_sd, right_sd)
    return SideDifference(_share(middle), _share(middle - reach), _share(middle + reach))


def _share(log_ratio: float) -> float:
    """Return the weaker side's distance from the stronger in percent, signed like the logarithm of their ratio."""
    return math.copysign(-100 * math.expm1(-abs(log_ratio)), log_ratio)
