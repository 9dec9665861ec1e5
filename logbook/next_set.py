"""Which set comes next, and what logging it as prescribed means.

The phone decides the same in static/logbook/next.js; tests/logbook/next_cases.json is run against both.
"""

from typing import Any

from logbook.sides import sides_of
from periodization.units import from_kg

Entry = dict[str, Any]


def live(entry: Entry, *, warm_up: bool = False) -> list[dict[str, Any]]:
    """Return the entry's sets that stand: working sets, or the warm-up sets."""
    return [row for row in entry.get("sets", ()) if not row["deleted"] and row["warm_up"] is warm_up]


def next_step(entry: Entry, *, warm_up: bool = False) -> dict[str, Any]:
    """Return {"number", "side"} of the set that comes next: the first number that is missing, side after side."""
    done: dict[int, set[str]] = {}
    for row in live(entry, warm_up=warm_up):
        done.setdefault(row["number"], set()).add(row["side"])
    sides = sides_of(entry)
    number = 1
    while number in done and (sides == ("both",) or done[number] >= set(sides)):
        number += 1
    missing = [side for side in sides if side not in done.get(number, ())]
    return {"number": number, "side": missing[0]}


def is_done(entry: Entry) -> bool:
    """Say whether every prescribed set is logged, or the exercise was skipped."""
    if (entry.get("skip") or {}).get("skipped"):
        return True
    prescription = entry["prescription"]
    return prescription is not None and next_step(entry)["number"] > prescription["sets"]


def wanted_sets(entries: list[Entry]) -> int:
    """Count the sets that the session asks for; an exercise that was swapped asks for none beside its substitute."""
    swapped = {entry["slot"] for entry in entries if entry.get("instead_of")}
    return sum(
        entry["prescription"]["sets"]
        for entry in entries
        if entry["prescription"]
        and not ((entry.get("skip") or {}).get("skipped") and entry["slot"] in swapped and not entry.get("instead_of"))
    )


def suggestion(entry: Entry, unit: str) -> dict[str, Any]:
    """Return load (in `unit` of the result), reps and RIR of the next set as prescribed, and where the load is from.

    Load: that of the set before in this session; else the target; else last time's; with the body as load, nothing
    added. Reps: the target's; else last time's inside the prescribed range; else its lower end. RIR: the lower end of
    the range, since a repetition in reserve that was not there would make the next target heavier. None: not known,
    and then the set cannot be logged with one tap.
    """
    step, prescription, target = next_step(entry), entry["prescription"], entry["target"]
    if target and target["action"] == "stop":
        return {"load": None, "unit": unit, "reps": None, "rir": None, "from": "stop"}
    before = _best_match(live(entry), step)
    last = _best_match((entry["last"] or {}).get("sets", []), step)
    reps = rir = None
    if prescription:
        low, high = prescription["reps_min"], prescription["reps_max"]
        reps = min(max(last["reps"], low), high) if last else low
        rir = prescription["rir_min"]
    elif before or last:
        reps = (before or last)["reps"]  # outside the plan nothing else says how many
    if target and target["reps"] is not None:
        reps = target["reps"]
    return {**_load(entry, unit, before, last), "reps": reps, "rir": rir}


def _load(entry: Entry, unit: str, before: Entry | None, last: Entry | None) -> dict[str, Any]:
    target = entry["target"]
    if before:
        return {"load": before["load"], "unit": before["unit"], "from": "session"}
    if target and target["load_kg"] is not None:
        return {"load": in_unit(target["load_kg"], unit), "unit": unit, "from": "target"}
    if last:
        return {"load": last["load"], "unit": last["unit"], "from": "last"}
    if entry["exercise"]["load_kind"] == "body_plus" or entry["exercise"]["equipment"]["kind"] == "none":
        return {"load": 0, "unit": unit, "from": "body"}
    return {"load": None, "unit": unit, "from": "none"}


def _best_match(rows: list[dict[str, Any]], step: dict[str, Any]) -> dict[str, Any] | None:
    """Return the row of the same side that is nearest before or at the step's number; else the last row."""
    same = [row for row in rows if row["side"] == step["side"]] or rows
    upto = [row for row in same if row["number"] <= step["number"]]
    return max(upto, key=lambda row: row["number"]) if upto else (same[-1] if same else None)


def in_unit(kg: float, unit: str) -> float:
    """Return kg in `unit` as it is shown and typed: pounds to a tenth, kilograms to a hundredth."""
    return round(from_kg(kg, unit), 1 if unit == "lb" else 2)


def next_entry(entries: list[Entry], current: str) -> str | None:
    """Return the key of the entry to show after a set of `current`; None when everything is done.

    Paired entries alternate: the partner with fewer sets done comes next. A single entry stays until it is done.
    """
    keys = [entry["key"] for entry in entries]
    here = entries[keys.index(current)]
    if here["pair"]:
        block = [e for e in entries if e["pair"][:1] == here["pair"][:1] and not is_done(e)]
        if block:
            return min(block, key=lambda e: (len(_rounds(e)), e["pair"]))["key"]
    elif not is_done(here):
        return current
    start = keys.index(current)
    after = entries[start + 1 :] + entries[:start]
    return next((e["key"] for e in after if not is_done(e)), None)


def _rounds(entry: Entry) -> range:
    """The rounds that are complete: both sides of a one-sided set."""
    return range(1, next_step(entry)["number"])
