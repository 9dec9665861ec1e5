"""Read the library's JSON files and refuse what does not hang together."""

import json
from pathlib import Path
from typing import Any

from programs.services.library_data import LibraryData, library_faults
from programs.services.library_rules import rule_faults

LIBRARY = Path(__file__).resolve().parent.parent / "library"


def read_library(folder: Path = LIBRARY) -> LibraryData:
    """Read every file below `folder`; ValueError lists all faults at once, each with the exercise's slug."""

    def entries(name: str) -> list[dict[str, Any]]:
        return json.loads((folder / name).read_text(encoding="utf-8"))

    exercises = [
        entry
        for path in sorted((folder / "exercises").glob("*.json"))
        for entry in json.loads(path.read_text(encoding="utf-8"))
    ]
    data = LibraryData(
        groups=entries("groups.json"),
        actions=entries("joint_actions.json"),
        muscles=entries("muscles.json"),
        equipment=entries("equipment.json"),
        references=entries("references.json"),
        limits=entries("limits.json"),
        exercises=exercises,
    )
    # The rules speak of things by name, so they are asked once every name is known.
    faults = library_faults(data) or rule_faults(data)
    if faults:
        raise ValueError("\n".join(faults))
    return data
