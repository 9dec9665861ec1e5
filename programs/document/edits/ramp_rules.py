"""The rules of a ramp as typed: `9–15` sets, `3–1` RIR, `2.5` per cent of load a week."""

import re
from collections.abc import Mapping

from django.utils.translation import gettext as _

from programs.document import limits
from programs.document.errors import EditError
from programs.document.model import RampRule, Range, Slot, Week
from programs.document.ranges import RANGE, check_range, read_range, show_range

PARTS = ("sets", "rir", "load")
_PAIR = re.compile(rf"^\s*{RANGE}\s*$", re.IGNORECASE)
Rules = tuple[tuple[str, RampRule], ...]


def read_rules(typed: Mapping[str, str], base: Week) -> tuple[RampRule, Rules, Rules]:
    """Return the rules for every slot, by group and by slot. EditError names the field that was typed wrongly.

    A field is called `every.rir`, `group.triceps.sets`, `slot.KEY.load`; an empty one says nothing.
    """
    slots = {slot.key: slot for day in base.days for slot in day.slots}
    every: dict[str, str] = {}
    groups: dict[str, dict[str, str]] = {}
    own: dict[str, dict[str, str]] = {}
    for field, text in typed.items():
        kind, _dot, rest = field.partition(".")
        name, _dot, part = rest.rpartition(".")
        if part not in PARTS or kind not in {"every", "group", "slot"} or (kind == "every") == bool(name):
            raise EditError(_("That change is not known."))
        if not text.strip() or (kind == "slot" and name not in slots):
            continue
        {"every": every, "group": groups.setdefault(name, {}), "slot": own.setdefault(name, {})}[kind][part] = text
    # A group's sets are those of the slots that have no sets of their own.
    pool = [slot for slot in slots.values() if "sets" not in own.get(slot.key, {})]
    by_group = {name: [slot for slot in pool if slot.group == name] for name in groups}
    return (
        _rule(every, "every", [], limits.SETS),
        tuple((n, _rule(groups[n], f"group.{n}", by_group[n], limits.GROUP_SETS)) for n in sorted(groups) if groups[n]),
        tuple((n, _rule(own[n], f"slot.{n}", [slots[n]], limits.SETS)) for n in sorted(own) if own[n]),
    )


def _rule(texts: Mapping[str, str], field: str, slots: list[Slot], bounds: Range) -> RampRule:
    start, peak = _sets(texts["sets"], f"{field}.sets", slots, bounds) if "sets" in texts else (None, None)
    return RampRule(
        start,
        peak,
        _rir(texts["rir"], f"{field}.rir") if "rir" in texts else None,
        _load(texts["load"], f"{field}.load") if "load" in texts else 0,
    )


def _sets(text: str, field: str, slots: list[Slot], bounds: Range) -> tuple[int | None, int]:
    match = _PAIR.match(text)
    if match and match[2] and int(match[2]) < int(match[1]):
        raise EditError(_("Sets may not end lower than they start: the peak comes last, as in 9–15."), field)
    low, high = read_range(text, bounds, field, _("Sets"))
    written = sum(slot.sets[1] for slot in slots)
    start = low if match and match[2] else None
    if start is None and high < written:
        raise EditError(
            _("The base week holds %(sets)s sets, more than this peak. Write a start as well: %(start)s–%(peak)s.")
            % {"sets": written, "start": max(1, high - 2), "peak": high},
            field,
        )
    if start is not None and start < len(slots):
        raise EditError(
            _("There are %(count)s exercises, and each keeps a set at least: start at %(count)s or more.")
            % {"count": len(slots)},
            field,
        )
    if slots and high > len(slots) * limits.SETS[1]:
        raise EditError(
            _("An exercise holds %(most)s sets at most, so the peak can be %(peak)s.")
            % {"most": limits.SETS[1], "peak": len(slots) * limits.SETS[1]},
            field,
        )
    return start, high


def _rir(text: str, field: str) -> Range:
    match = _PAIR.match(text)
    if match is None:
        raise EditError(_("RIR: write where it starts and where it ends, such as 3–1."), field)
    first, last = int(match[1]), int(match[2] or match[1])
    if last > first:
        raise EditError(_("RIR may stay or fall inside a block, not rise: such as 3–1."), field)
    check_range((str(last), str(first)), limits.RIR, field, _("RIR"))
    return first, last


def _load(text: str, field: str) -> float:
    try:
        value = round(float(text.replace(",", ".").replace("%", "").replace("+", "")), 1)
    except ValueError:
        value = -1
    if not limits.LOAD_PCT_A_WEEK[0] <= value <= limits.LOAD_PCT_A_WEEK[1]:
        raise EditError(
            _("Load: write a number of per cent a week from %(low)s to %(high)s.")
            % {"low": limits.LOAD_PCT_A_WEEK[0], "high": limits.LOAD_PCT_A_WEEK[1]},
            field,
        )
    return value


def shown_rule(rule: RampRule | None) -> dict[str, str]:
    """Return the texts of a rule's form fields."""
    if rule is None:
        return dict.fromkeys(PARTS, "")
    sets = "" if rule.peak is None else str(rule.peak) if rule.start is None else show_range((rule.start, rule.peak))
    return {
        "sets": f"{sets}–{sets}" if rule.start is not None and rule.start == rule.peak else sets,
        "rir": show_range(rule.rir) if rule.rir else "",
        "load": f"{rule.load_pct:g}" if rule.load_pct else "",
    }
