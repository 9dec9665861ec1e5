"""What must hold between the library's entries, beyond each name being known."""

from collections.abc import Iterator
from typing import Any

from programs.services.library_data import LibraryData
from programs.services.library_long import long_is_sound

CHOICES = {
    "laterality": {"both", "single", "alternating"},
    "load_kind": {"external", "body_plus", "assisted"},
    "rep_unit": {"reps", "seconds", "steps"},
}
LEAST_CREDIT = 0.05


def rule_faults(data: LibraryData) -> list[str]:
    """Say which entries break a rule of anatomy, of load or of safety; call when every name is known."""
    heads = {head["slug"]: head for muscle in data.muscles for head in muscle["heads"]}
    kinds = {entry["slug"]: entry["kind"] for entry in data.equipment}
    faults = []
    for entry in data.exercises:
        found = entry_faults(entry, heads, kinds[entry["equipment"]])
        faults += [f"{entry['slug']}: {fault}" for fault in found]
    return faults + link_faults(data.exercises)


def entry_faults(entry: dict[str, Any], heads: dict[str, Any], kind: str) -> list[str]:
    """Say what is wrong with one exercise whose names are all known; `kind` is that of its equipment."""
    return [*_plain(entry), *_anatomy(entry, heads), *_load(entry, kind)]


def _plain(entry: dict[str, Any]) -> Iterator[str]:
    for name, allowed in CHOICES.items():
        if entry.get(name, "reps" if name == "rep_unit" else None) not in allowed:
            yield f"{name} must be one of {', '.join(sorted(allowed))}"
    if not LEAST_CREDIT <= entry.get("body_share", 1.0) <= 1:
        yield "body_share is not between 0.05 and 1"
    if entry.get("body_share", 1.0) != 1 and entry["load_kind"] == "external":
        yield "body_share is given, but the body is no part of the load"
    for name in ("name", "set_up"):
        if not entry[name].strip():
            yield f"{name} is empty"
    for name in ("cues", "cautions"):
        if not entry[name] or not all(line.strip() for line in entry[name]):
            yield f"{name} is empty or has an empty line"


def _anatomy(entry: dict[str, Any], heads: dict[str, Any]) -> Iterator[str]:
    if not any(credit >= 0.5 for credit in entry["credits"].values()):
        yield "no head gets half a set or more"
    trained, by = set(entry["actions"]), entry.get("long_by", {})
    for head, credit in entry["credits"].items():
        if credit < LEAST_CREDIT:
            yield f"credit {credit} for {head} is too small to mean anything"
        if credit >= 1 and not trained & set(heads[head]["actions"]):
            yield f"{head} counts as direct, but the exercise makes none of its joint actions"
    for head in entry["long_heads"]:
        if not long_is_sound(heads[head]["actions"], trained, by.get(head)):
            yield f"{head} is called long, but long_by does not put its other joint there: {by.get(head)}"
    for head in set(by) - set(entry["long_heads"]):
        yield f"long_by names {head}, which is not among long_heads"


def _load(entry: dict[str, Any], kind: str) -> Iterator[str]:
    if entry["load_kind"] == "assisted" and kind not in ("assisted", "none"):
        yield f"equipment of kind {kind} gives no help"
    if kind == "assisted" and entry["load_kind"] != "assisted":
        yield "on an assisted station the load is the help"
    if kind == "body" and entry["load_kind"] == "external":
        yield "the body is no external load"


def link_faults(exercises: list[dict[str, Any]]) -> list[str]:
    """Say where harder and easier links lead back to where they started: A harder than B harder than A."""
    harder: dict[str, set[str]] = {entry["slug"]: set(entry["harder"]) for entry in exercises}
    for entry in exercises:
        for easier in entry["easier"]:
            harder.setdefault(easier, set()).add(entry["slug"])
    faults = []
    for start in harder:
        seen, ahead = set(), list(harder[start])
        while ahead:
            slug = ahead.pop()
            if slug not in seen:
                seen.add(slug)
                ahead += harder.get(slug, ())
        if start in seen:
            faults.append(f"{start}: following the harder variants leads back to it")
    return faults
