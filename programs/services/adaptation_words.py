"""What a difference is, as a code with parameters; the reason comes with it."""

from collections.abc import Iterable, Mapping
from typing import Any

from django.utils.translation import gettext_lazy as _

from accounts.models.client import TrainingStatus
from periodization.rules import Reason
from programs.document.adapt import Change
from programs.models import Limit, Site
from programs.services.limits import AVOIDED, NOT_JUDGED

OTHERS = {
    AVOIDED: _("this exercise"),
    NOT_JUDGED: _("what nobody has judged yet"),
    "left": _("left"),
    "right": _("right"),
}


def what_of(change: Change, params: Mapping[str, Any]) -> Reason:
    """Return what a change does; `params` are those of its reason: how many there are a week."""
    match change.kind:
        case "swap":
            return Reason("fit_what_swap", {"exercise": str(change.exercise), "other": str(change.to)})
        case "one-side" if change.to:
            return Reason("fit_what_one_side", {"exercise": str(change.exercise), "other": str(change.to)})
        case "one-side":
            return Reason("fit_what_weaker_first", {"exercise": str(change.exercise)})
        case "leave-out":
            return Reason("fit_what_leave_out", {"exercise": str(change.exercise)})
        case "scale":
            return Reason("fit_what_scale", {"percent": round(change.factor * 100)})
        case "fewer":
            return Reason("fit_what_fewer", {"less": change.less, "slots": params.get("a_week", len(change.slots))})
        case "rir":
            return Reason("fit_what_rir", {"rir": change.rir})
        case "pair":
            return Reason("fit_what_pair", {"pairs": params.get("a_week", len(change.pairs))})
        case "careful":
            return Reason("fit_what_careful", {"rir": change.rir, "count": len(change.slots)})
    return Reason("fit_what_start", {"exercise": str(change.exercise), "load": change.load_kg or 0.0})


def why_of(reason: str, params: Mapping[str, Any]) -> list[Reason]:
    """Return why, and what else is to be known of a substitute: what it loses, and that it is harder."""
    said = {**params}
    if "exercises" in said:
        said["exercises"] = [str(pk) for pk in said["exercises"]]
    more = []
    if "heads" in said:
        more.append("fit_less_long" if "long" in said else "fit_less")
    if said.get("harder"):
        more.append("fit_harder")
    if reason == "fit_start" and not said.get("days"):
        reason = "fit_start_same_day"
    return [Reason(code, said) for code in (reason, *more)]


def exercises_named(change: Change, params: Mapping[str, Any]) -> set[int]:
    """Return the ids of the exercises that the words of a change name."""
    several = params.get("exercises", ())
    found = {change.exercise, change.to, params.get("exercise"), *several}
    return {int(one) for one in found if one}


def fit_names(limits: Iterable[Limit] | None = None) -> dict[str, str]:
    """Return names for what reasons hold beside exercises: limits (read here when not given), places, statuses."""
    rows = Limit.objects.all() if limits is None else limits
    return {
        **{row.slug: row.name for row in rows},
        **{value: str(label) for value, label in (*Site.choices, *TrainingStatus.choices)},
        **{code: str(words) for code, words in OTHERS.items()},
    }
