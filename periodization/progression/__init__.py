"""What to do next time: repetitions up inside the range, then load up by a real step, hold, reduce, or stop."""

from periodization.progression.next_target import next_target
from periodization.progression.outgrown import Outgrown, OutgrownSettings, outgrown, smaller_range
from periodization.progression.table import table_change_kg
from periodization.progression.target import (
    DEFAULT,
    NO_VARIANTS,
    RULE,
    SETTINGS,
    Action,
    Counted,
    Prescription,
    ProgressionSettings,
    Target,
    Variants,
)

__all__ = [
    "DEFAULT",
    "NO_VARIANTS",
    "RULE",
    "SETTINGS",
    "Action",
    "Counted",
    "Outgrown",
    "OutgrownSettings",
    "Prescription",
    "ProgressionSettings",
    "Target",
    "Variants",
    "next_target",
    "outgrown",
    "smaller_range",
    "table_change_kg",
]
