"""The exercise library as drafts want it, read from its files without a database."""

import json
from pathlib import Path

from periodization.draft import Candidate, Grades, Head

LIBRARY = Path(__file__).resolve().parent.parent / "programs" / "library"
GRADES = ("activation", "long_length", "loadability", "near_failure")
# Held seconds and steps, about a second each; chosen for the bench only.
HELD = (20, 40)


def read_heads() -> tuple[Head, ...]:
    """Return every head with its group and joint actions."""
    muscles = json.loads((LIBRARY / "muscles.json").read_text())
    return tuple(
        Head(head["slug"], head["group"], frozenset(head["actions"])) for muscle in muscles for head in muscle["heads"]
    )


def read_candidates() -> tuple[Candidate, ...]:
    """Return every exercise of the library."""
    files = sorted((LIBRARY / "exercises").glob("*.json"))
    return tuple(_candidate(entry) for path in files for entry in json.loads(path.read_text()))


def read_groups() -> tuple[str, ...]:
    """Return the groups that a target is set for."""
    return tuple(group["slug"] for group in json.loads((LIBRARY / "groups.json").read_text()))


def _candidate(entry: dict) -> Candidate:
    counted = entry.get("rep_unit", "reps") == "reps"
    return Candidate(
        id=entry["slug"],
        credits=entry["credits"],
        grades=Grades(*(entry["grades"][name][0] for name in GRADES)),
        actions=frozenset(entry["actions"]),
        equipment=entry["equipment"],
        compound=entry["compound"],
        one_sided=entry["laterality"] != "both",
        long_heads=frozenset(entry["long_heads"]),
        setup_seconds=entry["setup_s"],
        rest_seconds=entry["rest_s"],
        rep_seconds=entry["rep_s"] if counted else 1,
        reps=None if counted else HELD,
    )
