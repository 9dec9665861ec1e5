"""The rows of one planned session, before and after a revision: three versions of each row are compared.

What the row was written from, what it says now, and what the new version says. Where the program did not change,
the row stays. Where it did, the row follows; but a row that says something else than what it was written from was
changed by someone for this client (a decision), and is only offered.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from programs.document import Slot
from programs.models import PlannedSlot
from programs.services.dated_rows import slot_rows

PLACE = ("slot_key", "position", "pair")
# Follows the exercise, and is not compared: what is known of a client's strength is not the program's.
BESIDE = ("start_load_kg",)
# Whatever assigning writes of a slot.
NAMES = tuple(slot_rows((Slot("", 1),), {})[0])
Fields = dict[str, Any]


@dataclass(frozen=True, slots=True)
class SlotStep:
    """What happens to one row. `row` None: it is made from `after`; `after` None: it is taken out.

    `content`: more than its place changes. `offered`: it was changed for this client, so `after` is only written when
    the coach says so, and `otherwise` (its new place) when not.
    """

    row: PlannedSlot | None
    before: Fields | None
    after: Fields | None
    content: bool = True
    offered: bool = False
    otherwise: Fields | None = None

    def resolved(self, taken: bool) -> "SlotStep | None":
        """Return the step that is carried out; None when nothing is."""
        if not self.offered or taken:
            return self
        if self.otherwise == self.before:
            return None
        return SlotStep(self.row, self.before, self.otherwise, content=False)


def slot_steps(
    rows: Sequence[PlannedSlot], base: Sequence[Fields], new: Sequence[Fields], mapped: Mapping[str, str]
) -> list[SlotStep]:
    """Return the steps that take a session's rows to the new version; none for rows that stay as they are.

    `base` and `new` are fields as `slot_rows` gives them, of the version the rows were written from (adapted) and of
    the new one; `mapped` leads from the base's slot keys to the new version's.
    """
    written = {mapped.get(one["slot_key"], one["slot_key"]): one for one in base}
    standing = {mapped.get(row.slot_key, row.slot_key) if row.slot_key else f" {row.pk}": row for row in rows}
    steps: list[SlotStep] = []
    for fields in new:
        row, was = standing.pop(fields["slot_key"], None), written.get(fields["slot_key"])
        if row is not None:
            steps.extend(_changed(row, was, fields))
        elif was is None:
            steps.append(SlotStep(None, None, fields))
        # A row that was written and is not there any more was taken out for this client.
    for place, (key, row) in enumerate(standing.items(), len(new) + 1):
        steps.extend(_gone(row, written.get(key), place))
    return steps


def _changed(row: PlannedSlot, was: Fields | None, fields: Fields) -> Iterator[SlotStep]:
    """Yield the step of a row that the new version has too."""
    now = fields_of(row)
    placed = now | {name: fields[name] for name in PLACE}
    if content_of(fields) not in (content_of(was) if was else None, content_of(now)):
        ours = was is not None and content_of(now) == content_of(was)
        yield SlotStep(row, now, fields, offered=not ours, otherwise=placed)
    elif placed != now:
        yield SlotStep(row, now, placed, content=False)


def _gone(row: PlannedSlot, was: Fields | None, place: int) -> Iterator[SlotStep]:
    """Yield the step of a row that the new version does not have. What was never written from it stays, behind."""
    now = fields_of(row)
    behind = now | {"position": place}
    if was is not None:
        yield SlotStep(row, now, None, offered=content_of(now) != content_of(was), otherwise=behind)
    elif behind != now:
        yield SlotStep(row, now, behind, content=False)


def fields_of(row: PlannedSlot) -> Fields:
    """Return what a revision can write of a row."""
    return {name: getattr(row, name) for name in NAMES}


def content_of(fields: Fields) -> Fields:
    """Return the exercise and its prescription, without place and what stands beside."""
    return {name: value for name, value in fields.items() if name not in PLACE + BESIDE}
