"""What changed since last time, exercise by exercise, in one plain sentence."""

from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from logbook.next_set import in_unit
from programs.templatetags.loads import plain

SAME_KG = 0.05


def since_last_time(sets: list[dict[str, Any]], last: list[dict[str, Any]], exercise: dict[str, Any], unit: str) -> str:
    """Compare the working sets of today with those of last time: the top load, then the repetitions in all.

    More assistance is said as such, not as more load. No judgement is made.
    """
    if not sets:
        return _("no working set")
    if not last:
        return _("first time")
    parts = [_load_change(sets, last, exercise, unit)]
    count, before = _count(sets), _count(last)
    if count != before:
        # With other sets in it, the sum of repetitions would say nothing.
        words = ngettext("%(n)s set (%(m)s last time)", "%(n)s sets (%(m)s last time)", count)
        parts.append(words % {"n": count, "m": before})
    else:
        parts.append(_reps_change(sets, last))
    return ", ".join(part for part in parts if part) or _("no change")


def _load_change(sets: list[dict[str, Any]], last: list[dict[str, Any]], exercise: dict[str, Any], unit: str) -> str:
    change = _top(sets, exercise) - _top(last, exercise)
    if abs(change) > SAME_KG:
        amount = f"{plain(abs(in_unit(change, unit)))}\u00a0{unit}"
        if exercise["load_kind"] == "assisted":
            return (_("%(amount)s more assistance") if change > 0 else _("%(amount)s less assistance")) % {
                "amount": amount
            }
        return (_("top load %(amount)s more") if change > 0 else _("top load %(amount)s less")) % {"amount": amount}
    return ""


def _reps_change(sets: list[dict[str, Any]], last: list[dict[str, Any]]) -> str:
    reps = sum(row["reps"] for row in sets) - sum(row["reps"] for row in last)
    if reps > 0:
        return ngettext("%(n)s repetition more in all", "%(n)s repetitions more in all", reps) % {"n": reps}
    if reps < 0:
        return ngettext("%(n)s repetition fewer in all", "%(n)s repetitions fewer in all", -reps) % {"n": -reps}
    return ""


def _top(sets: list[dict[str, Any]], exercise: dict[str, Any]) -> float:
    """The hardest setting: with assistance the least of it."""
    loads = [row["load_kg"] for row in sets]
    return min(loads) if exercise["load_kind"] == "assisted" else max(loads)


def _count(sets: list[dict[str, Any]]) -> int:
    """The two sides of a one-sided set are one set."""
    return len({row["number"] for row in sets})
