"""The library's entries as its files have them, and what in them names something that is not there."""

from dataclasses import dataclass
from typing import Any

GRADES = ("activation", "long_length", "loadability", "near_failure")
LINKS = ("harder", "easier", "substitutes")


@dataclass(frozen=True)
class LibraryData:
    """The files' entries as they stand, each list in file order."""

    groups: list[dict[str, Any]]
    actions: list[dict[str, Any]]
    muscles: list[dict[str, Any]]
    equipment: list[dict[str, Any]]
    references: list[dict[str, Any]]
    limits: list[dict[str, Any]]
    exercises: list[dict[str, Any]]


def library_faults(data: LibraryData) -> list[str]:
    """Say what in the data names something that is not there, or is out of range."""
    actions = {entry["slug"] for entry in data.actions}
    heads = {head["slug"]: head for muscle in data.muscles for head in muscle["heads"]}
    equipment = {entry["slug"] for entry in data.equipment}
    limits = {entry["slug"] for entry in data.limits}
    references = {entry["id"] for entry in data.references}
    slugs = [entry["slug"] for entry in data.exercises]
    faults = [f"{slug}: the slug is used twice" for slug in sorted({s for s in slugs if slugs.count(s) > 1})]
    known = set(slugs)
    for entry in data.exercises:

        def say(fault: str, slug: str = entry["slug"]) -> None:
            faults.append(f"{slug}: {fault}")

        if entry["equipment"] not in equipment:
            say(f"unknown equipment {entry['equipment']}")
        for action in set(entry["actions"]) - actions:
            say(f"unknown joint action {action}")
        if "limits" not in entry:
            say("joints and positions are not judged; an empty list says that there is none")
        for limit in set(entry.get("limits", ())) - limits:
            say(f"unknown joint stress or position {limit}")
        for head, credit in entry["credits"].items():
            if head not in heads:
                say(f"unknown head {head}")
            if not 0 < credit <= 1:
                say(f"credit {credit} for {head} is not over 0 and up to 1")
        for head in set(entry["long_heads"]) - set(entry["credits"]):
            say(f"{head} is loaded long but gets no credit")
        for grade in GRADES:
            value, reason = entry["grades"][grade]
            if value not in range(1, 6) or not reason.strip():
                say(f"grade {grade} needs a value from 1 to 5 and a reason")
        for claim, ids in entry.get("refs", {}).items():
            if claim not in GRADES:
                say(f"references stand behind an unknown claim {claim}")
            for reference in set(ids) - references:
                say(f"unknown reference {reference}")
        for kind in LINKS:
            for other in set(entry[kind]) - known | ({entry["slug"]} & set(entry[kind])):
                say(f"{kind} names {other}, which is not another exercise here")
    return faults
