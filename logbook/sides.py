"""Exercises done one side at a time: which side comes first, and how the sides differ.

The phone decides the same in static/logbook/sides.js; tests/logbook/next_cases.json and compare_cases.json are run
against both.
"""

from typing import Any

from django.utils.translation import gettext as _

from logbook.wording import amount_words, load_words, side_words
from periodization.units import from_kg, to_kg

Entry = dict[str, Any]
SIDES = ("left", "right")
SAME_KG = 0.05
# A repetition more at the same load is worth about a thirtieth of it: enough to say which side is the stronger one.
LOAD_A_REP = 1 / 30


def one_sided(entry: Entry) -> bool:
    return bool(entry["exercise"]["laterality"] == "single")


def sides_of(entry: Entry) -> tuple[str, ...]:
    """Return the sides in the order in which they are done: left first, unless the coach wants the weaker one first and
    last time's sets say that it is the right one."""
    if not one_sided(entry):
        return ("both",)
    weaker_first = (entry["prescription"] or {}).get("weaker_first")
    weaker = weaker_side((entry["last"] or {}).get("sets", []), entry["exercise"]) if weaker_first else None
    return ("right", "left") if weaker == "right" else SIDES


def weaker_side(rows: list[dict[str, Any]], exercise: dict[str, Any]) -> str | None:
    """Return the side whose best set was less; None where they were equal, or one of them is not known."""
    best = {side: max((_worth(row, exercise) for row in rows if row["side"] == side), default=None) for side in SIDES}
    left, right = best["left"], best["right"]
    if left is None or right is None or left == right:
        return None
    return "left" if left < right else "right"


def _worth(row: dict[str, Any], exercise: dict[str, Any]) -> tuple[float, float]:
    """Load and repetitions in one number, then repetitions alone for what has no load; less assistance is more."""
    reps = row["reps"] + (row["rir"] or 0)
    kg = to_kg(row["load"], row["unit"])
    return (-kg if exercise["load_kind"] == "assisted" else kg * (1 + reps * LOAD_A_REP)), reps


def side_difference(sets: list[dict[str, Any]], exercise: dict[str, Any], unit: str) -> str:
    """Say by how much one side was less in the sets that both sides did: the top load, else the repetitions in all.

    Empty while no set is complete. It is a description: a difference of a repetition or two is usual.
    """
    done = {side: {row["number"]: row for row in sets if row["side"] == side} for side in SIDES}
    both = sorted(done["left"].keys() & done["right"].keys())
    if not both:
        return ""
    assisted = exercise["load_kind"] == "assisted"
    left, right = ([done[side][number] for number in both] for side in SIDES)
    tops = [(min if assisted else max)(to_kg(row["load"], row["unit"]) for row in rows) for rows in (left, right)]
    change = tops[0] - tops[1]
    if abs(change) > SAME_KG:
        amount = load_words(round(from_kg(abs(change), unit), 1 if unit == "lb" else 2), unit, PLAIN)
        side = side_words("left" if (change > 0) == assisted else "right")
        words = _("%(side)s %(amount)s more assistance") if assisted else _("%(side)s %(amount)s less")
        return words % {"side": side, "amount": amount}
    reps = sum(row["reps"] for row in left) - sum(row["reps"] for row in right)
    if not reps:
        return _("no difference")
    side = side_words("left" if reps < 0 else "right")
    return _("%(side)s %(amount)s less") % {"side": side, "amount": amount_words(abs(reps), exercise)}


# A difference is an amount of load, whatever the load is added to.
PLAIN = {"load_kind": "external", "equipment": {"kind": "plates"}}
