"""Whether to ask the coach for a week of reduced training, and with which numbers. Never a diagnosis."""

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
    """`signs_needed` independent families of flags; the rest are the numbers proposed.

    Published: `due_after_weeks` (4-6 weeks by survey, mean 5.6), `days` (5-7, mean 6.4), sets down, RIR up, load down,
    sessions and exercises kept. Chosen: all shares; no source gives the size of the cut.
    """

    signs_needed: int = 2
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

    `signs` are the families of flags that stand, `evidence` their rule ids and subjects. `sets`, `rir_min` and
    `rir_max` are the reduced week, when the week was given.
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


def propose_deload(
    flags: Sequence[Flag],
    weeks_since_deload: float | None,
    planned: bool = False,
    week: WeekPrescription | None = None,
    settings: DeloadSettings = DEFAULT,
) -> DeloadPrompt | None:
    """Return a prompt, or None: a pain stop, several independent signs, a planned deload, or time since the last one.

    `weeks_since_deload` counts weeks of training since the last deload or the start; None when unknown. In the first
    `hold_off_weeks` after a deload signs say nothing new. One sign alone prompts nothing, pain excepted.
    """
    stops = [f for f in flags if f.family == "pain" and f.severity == "stop"]
    signs = tuple(family for family in SIGNS if any(f.family == family for f in flags))
    rested = weeks_since_deload is not None and weeks_since_deload < settings.hold_off_weeks
    reasons: list[Reason] = []
    kind: Kind
    if stops:
        kind = "pain"
        reasons.append(Reason("deload_pain", {"count": len(stops)}))
    elif len(signs) >= settings.signs_needed and not rested:
        kind = "signs"
    elif planned:
        kind = "planned"
    elif weeks_since_deload is not None and weeks_since_deload >= settings.due_after_weeks:
        kind = "due"
    else:
        return None
    if len(signs) >= settings.signs_needed and not rested:
        reasons.append(Reason("deload_signs", {"count": len(signs)}))
        reasons += [Reason(f"deload_sign_{family}") for family in signs]
    if planned:
        reasons.append(Reason("deload_planned"))
    if weeks_since_deload is not None and weeks_since_deload >= settings.due_after_weeks:
        reasons.append(Reason("deload_due", {"weeks": round(weeks_since_deload, 1)}))
    reasons.append(Reason("deload_no_diagnosis"))
    used = [f for f in flags if f in stops or f.family in signs]
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
            "signs_needed": settings.signs_needed,
            "due_after_weeks": settings.due_after_weeks,
            "hold_off_weeks": settings.hold_off_weeks,
        },
        *_reduced(week, settings),
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
