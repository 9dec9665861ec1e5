"""Whether to ask the coach for a week of reduced training, and with which numbers. Never a diagnosis."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from periodization.flags.flag import Family, Flag
from periodization.rules import Param, Reason, Rule

RULE = Rule(
    "deload.prompt",
    1,
    "interval and length: Rogerson 2024, Bell 2022; no single marker: Meeusen 2013; shares and signs chosen",
)
# Attendance and volume explain why someone is tired or not; they are no signs of it.
SIGNS: tuple[Family, ...] = ("performance", "check_in", "soreness")

Kind = Literal["pain", "signs", "planned", "due"]


@dataclass(frozen=True, slots=True)
class DeloadSettings:
    """`signs_needed` independent families of flags whose weights add up to `weight_needed`, and what to propose.

    Of soreness at most `most_sore_groups` groups add up. In the first `hold_off_weeks` after a deload, and when
    `rested_sessions` of the last week's sessions were missed, rest has been had, and signs ask for no more of it.
    Published: `due_after_weeks` (4-6 weeks by survey, mean 5.6), `days` (5-7, mean 6.4), sets down, RIR up, load down,
    sessions and exercises kept. Chosen: all shares; no source gives the size of the cut.
    """

    signs_needed: int = 2
    weight_needed: float = 1.8
    most_sore_groups: int = 3
    rested_sessions: int = 2
    due_after_weeks: float = 6.0
    hold_off_weeks: float = 1.0
    sets_share: float = 0.5
    rir_up: int = 2
    load_share: float = 0.9
    days: int = 7


DEFAULT = DeloadSettings()


@dataclass(frozen=True, slots=True)
class WeekPrescription:
    """The week that would be reduced: hard sets of the whole week and the RIR asked for."""

    sets: int
    rir_min: int
    rir_max: int


@dataclass(frozen=True, slots=True)
class DeloadPrompt:
    """A question with numbers. `sets_share` and `load_share` multiply, `rir_up` is added; sessions and exercises stay.

    `signs` are the families of flags that stand, `weight` their sum, `evidence` their rule ids and subjects. `sets`,
    `rir_min` and `rir_max` are the reduced week, when the week was given.
    """

    rule_id: str
    version: int
    kind: Kind
    sets_share: float
    rir_up: int
    load_share: float
    days: int
    reasons: tuple[Reason, ...]
    signs: tuple[Family, ...]
    evidence: tuple[tuple[str, str], ...]
    thresholds: Mapping[str, Param]
    sets: int | None = None
    rir_min: int | None = None
    rir_max: int | None = None
    weight: float = 0.0


def propose_deload(
    flags: Sequence[Flag],
    weeks_since_deload: float | None,
    planned: bool = False,
    week: WeekPrescription | None = None,
    settings: DeloadSettings = DEFAULT,
) -> DeloadPrompt | None:
    """Return a prompt, or None: a pain stop, several independent signs, a planned deload, or time since the last one.

    `weeks_since_deload` counts weeks of training since the last deload or the start; None when unknown. One sign
    alone prompts nothing, pain excepted.
    """
    s = settings
    stops = [f for f in flags if f.family == "pain" and f.severity == "stop"]
    weights = {family: _weight(flags, family, s) for family in SIGNS}
    signs = tuple(family for family in SIGNS if weights[family] > 0)
    weight = math.fsum(weights.values())
    together = len(signs) >= s.signs_needed and weight >= s.weight_needed and not _rested(flags, weeks_since_deload, s)
    due = weeks_since_deload is not None and weeks_since_deload >= s.due_after_weeks
    reasons: list[Reason] = []
    kind: Kind
    if stops:
        kind = "pain"
        reasons.append(Reason("deload_pain", {"count": len(stops)}))
    elif together:
        kind = "signs"
    elif planned:
        kind = "planned"
    elif due:
        kind = "due"
    else:
        return None
    if together:
        reasons.append(Reason("deload_signs", {"count": len(signs)}))
        reasons += [Reason(f"deload_sign_{family}") for family in signs]
    if planned:
        reasons.append(Reason("deload_planned"))
    if weeks_since_deload is not None and due:
        reasons.append(Reason("deload_due", {"weeks": round(weeks_since_deload, 1)}))
    reasons.append(Reason("deload_no_diagnosis"))
    used = [f for f in flags if f in stops or (f.family in signs and f.weight > 0)]
    return DeloadPrompt(
        RULE.id,
        RULE.version,
        kind,
        settings.sets_share,
        settings.rir_up,
        settings.load_share,
        settings.days,
        tuple(reasons),
        signs,
        tuple((f.rule_id, f.subject) for f in used),
        {
            "signs_needed": s.signs_needed,
            "weight_needed": s.weight_needed,
            "due_after_weeks": s.due_after_weeks,
            "hold_off_weeks": s.hold_off_weeks,
            "rested_sessions": s.rested_sessions,
        },
        *_reduced(week, s),
        weight=round(weight, 3),
    )


def _weight(flags: Sequence[Flag], family: Family, s: DeloadSettings) -> float:
    """Return the family's weight: its strongest flag, but for soreness the sum over a few groups."""
    weights = sorted((f.weight for f in flags if f.family == family), reverse=True)
    return math.fsum(weights[: s.most_sore_groups if family == "soreness" else 1])


def _rested(flags: Sequence[Flag], weeks_since_deload: float | None, s: DeloadSettings) -> bool:
    values = [f.values.get("lately", 0) for f in flags if f.family == "attendance"]
    missed = [value for value in values if isinstance(value, int | float)]
    return (weeks_since_deload is not None and weeks_since_deload < s.hold_off_weeks) or any(
        m >= s.rested_sessions for m in missed
    )


def reduced_sets(sets: int, share: float) -> int:
    """Return `sets` times `share`, halves down, at least one set and always fewer than before when that is possible."""
    if sets <= 1:
        return sets
    wanted = int(sets * share + 0.5 - 1e-9)
    return max(1, min(wanted, sets - 1))


def _reduced(week: WeekPrescription | None, settings: DeloadSettings) -> tuple[int | None, int | None, int | None]:
    if week is None:
        return None, None, None
    sets = reduced_sets(week.sets, settings.sets_share)
    return sets, week.rir_min + settings.rir_up, week.rir_max + settings.rir_up
