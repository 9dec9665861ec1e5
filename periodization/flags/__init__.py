"""Recovery flags: what the numbers show, each with its evidence, thresholds, and what would clear it."""

from datetime import date

from periodization.flags import (
    check_in,
    effort,
    missed,
    pain,
    performance,
    performance_overall,
    rep_floor,
    soreness,
    volume,
)
from periodization.flags.facts import (
    CheckInFact,
    ClientHistory,
    Exposure,
    PainFact,
    PlannedFact,
    SetFact,
    WeekVolume,
)
from periodization.flags.flag import Family, Flag, FlagRule, Severity, SubjectKind
from periodization.flags.thresholds import DEFAULT, Thresholds

__all__ = [
    "DEFAULT",
    "RULES",
    "CheckInFact",
    "ClientHistory",
    "Exposure",
    "Family",
    "Flag",
    "FlagRule",
    "PainFact",
    "PlannedFact",
    "SetFact",
    "Severity",
    "SubjectKind",
    "Thresholds",
    "WeekVolume",
    "evaluate",
    "longest_window",
]

# Most urgent first; the order of the flags.
RULES: tuple[FlagRule, ...] = (
    pain.FLAG_RULE,
    performance_overall.FLAG_RULE,
    performance.FLAG_RULE,
    effort.FLAG_RULE,
    rep_floor.FLAG_RULE,
    check_in.FLAG_RULE,
    soreness.FLAG_RULE,
    missed.FLAG_RULE,
    volume.FLAG_RULE,
)


def evaluate(history: ClientHistory, today: date, thresholds: Thresholds = DEFAULT) -> tuple[Flag, ...]:
    """Return every flag that stands on `today`, in the order of RULES. Nothing outside a rule's window counts."""
    return tuple(flag for rule in RULES for flag in rule.evaluate(history, today, thresholds))


def longest_window(thresholds: Thresholds = DEFAULT) -> int:
    """Return how many days before `today` a history must reach for `evaluate` to see all it would use."""
    return max(rule.window(thresholds) for rule in RULES)
