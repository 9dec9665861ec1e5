"""Is a typed load far from those before it? Then it is asked about once: a slip of the thumb, or meant?

The phone decides the same in static/logbook/far.js; tests/logbook/far_cases.json is run against both. The sizes are
chosen: a load may well be a half more or less than last time's, and nobody means ten times as much.
"""

from collections.abc import Sequence
from typing import Any

from logbook.next_set import Entry, in_unit, live
from programs.templatetags.loads import plain

# External loads: over twice the heaviest before, or under half the lightest, and not by a mere few kilograms.
TIMES, LEAST_KG = 2.0, 5.0
# With the body as part of the load, twice of what is added says little.
WITH_BODY_KG = 25.0


def earlier_loads(entry: Entry, leave_out: str | None = None) -> list[float]:
    """Return what a load is compared with, kg: last time's working sets, this session's, and the suggestion.

    `leave_out` is the id of the set that is edited.
    """
    rows = [*(entry.get("last") or {}).get("sets", ()), *live(entry)]
    found = [row["load_kg"] for row in rows if row["id"] != leave_out]
    target = entry.get("target")
    if target and target["load_kg"] is not None:
        found.append(target["load_kg"])
    return found


def slip_words(entry: Entry, row: dict[str, Any], unit: str) -> str:
    """Return what a logged set lies far from, as a load in `unit`; "" when it does not, or was said to be right."""
    found = slip_of(entry, row)
    return "" if found is None else f"{plain(in_unit(found, unit))}\u00a0{unit}"


def slip_of(entry: Entry, row: dict[str, Any]) -> float | None:
    """Return the load in kg that a logged set lies far from; None when it does not.

    It is held against last time's and the suggestion, since a slip in the first set is often kept in those after it;
    where there are none, against the others of its session. A load that was said to be right is none, and speaks for
    its like in the same session.
    """
    if row["deleted"] or row["confirmed"]:
        return None
    said = [one["load_kg"] for one in live(entry) if one["confirmed"]]
    before = [*earlier_loads({**entry, "sets": []}), *said] or earlier_loads(entry, row["id"])
    return far_from(row["load_kg"], before, entry["exercise"]["load_kind"], warm_up=row["warm_up"])


def far_from(kg: float, earlier: Sequence[float], load_kind: str, *, warm_up: bool) -> float | None:
    """Return the load in kg, of those before, that `kg` lies far from; None when it does not, or nothing is known.

    A warm-up set may be as light as it likes.
    """
    if not earlier:
        return None
    least, most = min(earlier), max(earlier)
    if load_kind != "external":
        over, under = kg - most > WITH_BODY_KG, least - kg > WITH_BODY_KG
    else:
        over = kg > TIMES * most and kg - most > LEAST_KG
        under = kg < least / TIMES and least - kg > LEAST_KG
    if over:
        return most
    return least if under and not warm_up else None
