"""The practice's programs as documents of the program writer."""

from typing import Any

from demo.practice.programs import Lines, ProgramPlan
from programs.document import Block, Day, Document, Slot, Week, document_to_json, read_prescription


def document_of(plan: ProgramPlan, exercise_ids: dict[str, int]) -> dict[str, Any]:
    """Return the JSON of `plan`; KeyError names an exercise that the library does not have."""
    blocks = []
    for number, (name, weeks, deloads) in enumerate(plan.blocks, 1):
        made = []
        for week in range(1, weeks + 1):
            key, deload = f"b{number}w{week}", week in deloads
            days = tuple(
                Day(f"{key}d{n}", day, slots_of(lines, f"{key}d{n}", exercise_ids, deload))
                for n, (day, lines) in enumerate(plan.days, 1)
            )
            made.append(Week(key, deload, "", days))
        blocks.append(Block(f"b{number}", name, tuple(made)))
    return document_to_json(Document(tuple(blocks)))


def slots_of(lines: Lines, key: str, exercise_ids: dict[str, int], deload: bool) -> tuple[Slot, ...]:
    """Return a day's slots; in a deload week half the sets, rounded up, with two more repetitions in reserve."""
    slots = []
    for number, line in enumerate(lines, 1):
        head, text = line.split(":", 1)
        pair, _, slug = head.rpartition(" ")
        said = read_prescription(text.strip()).said()
        if deload:
            said["sets"] = tuple((count + 1) // 2 for count in said["sets"])
            said["rir"] = tuple(rir + 2 for rir in said["rir"])
        slots.append(Slot(key=f"{key}s{number}", exercise=exercise_ids[slug], pair=pair, **said))
    return tuple(slots)
