"""The loads that equipment can make, in words."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from periodization.loads import ladder_from_dict, settings_of
from periodization.units import from_kg
from programs.templatetags.loads import plain


@dataclass(frozen=True, slots=True)
class LoadText:
    """`short` fits a line of a list; `full` names every load, runs of equal steps together."""

    short: str
    full: str
    count: int


def load_text(ladder: Mapping[str, Any]) -> LoadText:
    """Describe a stored ladder in its own unit, the one that is printed on the equipment."""
    if ladder.get("kind") == "none":
        return LoadText(_("no countable load"), _("no countable load"), 0)
    unit = ladder.get("unit", "kg")
    # Pounds come back from kilograms with noise in the last places; nothing is printed finer than a hundredth.
    loads = [round(from_kg(kg, unit), 2) for kg in settings_of(ladder_from_dict(ladder))]
    if len(loads) == 1:
        only = f"{plain(loads[0])} {unit}"
        return LoadText(only, only, 1)
    steps = [round(b - a, 2) for a, b in pairwise(loads)]
    values = {
        "low": plain(loads[0]),
        "high": plain(loads[-1]),
        "unit": unit,
        "step": plain(min(steps)),
        "widest": plain(max(steps)),
    }
    if min(steps) == max(steps):
        short = _("%(low)s to %(high)s %(unit)s in steps of %(step)s") % values
    else:
        short = _("%(low)s to %(high)s %(unit)s in steps of %(step)s to %(widest)s") % values
    return LoadText(short, f"{', '.join(_runs(loads))} {unit}", len(loads))


def _runs(loads: Sequence[float]) -> list[str]:
    """Write runs of three and more equal steps as "2 to 10 by 2", the rest one by one."""
    parts, start = [], 0
    while start < len(loads):
        end = start + 1
        while end + 1 < len(loads) and round(loads[end + 1] - loads[end], 2) == round(
            loads[start + 1] - loads[start], 2
        ):
            end += 1
        if end - start >= 2 and end < len(loads):
            step = plain(round(loads[start + 1] - loads[start], 2))
            parts.append(
                _("%(low)s to %(high)s by %(step)s")
                % {"low": plain(loads[start]), "high": plain(loads[end]), "step": step}
            )
            start = end + 1
        else:
            parts.append(plain(loads[start]))
            start += 1
    return parts


def ladder_words(ladder: Mapping[str, Any]) -> str:
    """Say what the loads are made of: the bar and its plates, the pins and the small weights beside them."""
    unit = ladder.get("unit", "kg")
    if ladder["kind"] == "plates":
        plates = ", ".join(
            ngettext("%(count)d pair of %(plate)s", "%(count)d pairs of %(plate)s", count)
            % {"count": count, "plate": plain(plate)}
            for plate, count in ladder["pairs"]
        )
        bar = _("a bar of %(bar)s %(unit)s") % {"bar": plain(ladder["bar"]), "unit": unit}
        return f"{bar}, {plates} {unit}" if plates else bar
    if ladder.get("add_ons"):
        weights = ", ".join(plain(value) for value in ladder["add_ons"])
        return _("a stack with small weights of %(weights)s %(unit)s beside it") % {"weights": weights, "unit": unit}
    return ""
