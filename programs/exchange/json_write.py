"""A program as JSON text. The same program always gives the same bytes."""

import json
from collections.abc import Mapping
from typing import Any

SCHEMA = "urn:sinewright:program:1"
ABOUT = ("name", "note", "written_for", "weekdays")


def write_program(
    about: Mapping[str, Any],
    document: Mapping[str, Any],
    references: Mapping[int, str],
    exercises: Mapping[str, Mapping[str, Any]],
    equipment: Mapping[str, Mapping[str, Any]],
) -> str:
    """Return the text of the file.

    `references` names each exercise of the document by its id here; `exercises` and `equipment` say, by reference, what
    the file tells of them.
    """
    used = sorted({references[pk] for pk in exercise_ids(document)})
    whole: dict[str, Any] = {"$schema": SCHEMA, **{name: about[name] for name in ABOUT}}
    whole["exercises"] = [{"id": reference, **exercises[reference]} for reference in used]
    if equipment:
        whole["equipment"] = [{"id": reference, **equipment[reference]} for reference in sorted(equipment)]
    whole["blocks"] = with_references(document["blocks"], references)
    return json.dumps(whole, ensure_ascii=False, indent=1) + "\n"


def exercise_ids(value: Any) -> set[int]:
    """Return the ids of all exercises that a document names, also in the base week of a ramp."""
    found: set[int] = set()
    walk_slots(value, lambda slot: found.add(slot["exercise"]))
    return found


def with_references(value: Any, references: Mapping[int, str]) -> Any:
    """Return a copy of a document's part that names exercises by reference."""
    copy = json.loads(json.dumps(value))
    walk_slots(copy, lambda slot: slot.update(exercise=references[slot["exercise"]]))
    return copy


def walk_slots(value: Any, do: Any) -> None:
    """Call `do` with each slot: an object with an exercise in a list called "slots"."""
    if isinstance(value, list):
        for one in value:
            walk_slots(one, do)
    elif isinstance(value, dict):
        for name, inner in value.items():
            if name == "slots" and isinstance(inner, list):
                for slot in inner:
                    if isinstance(slot, dict) and "exercise" in slot:
                        do(slot)
            else:
                walk_slots(inner, do)
