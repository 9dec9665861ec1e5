"""What to do next time: repetitions up inside the range, then load up by a real step, hold, reduce, or stop."""

from periodization.progression.next_target import next_target
from periodization.progression.table import table_change_kg
from periodization.progression.target import DEFAULT, RULE, Action, Prescription, ProgressionSettings, Target

__all__ = [
    "DEFAULT",
    "RULE",
    "Action",
    "Prescription",
    "ProgressionSettings",
    "Target",
    "next_target",
    "table_change_kg",
]
