"""A program as a table: one row an exercise and week, safe to open in a spreadsheet."""

from collections.abc import Iterator, Mapping, Sequence

from django.utils.translation import gettext as _

from programs.document import Document, labels
from programs.document.model import Day, Slot
from programs.document.ranges import show_range
from programs.exchange.columns import COLUMNS
from programs.sheets.write import printable


def sheet_rows(document: Document, names: Mapping[int, str]) -> Iterator[list[str]]:
    """Yield the rows below the headings. Parts that have no name, or another's, get one, for a table tells them apart
    by name; a day without exercises gets a row that only names it."""
    for block, block_name in _named(document.blocks, _("Block %(number)s")):
        for number, week in enumerate(block.weeks, 1):
            opens = [block_name, str(number), "yes" if week.deload else "", printable(week.note)]
            if not week.days:
                yield [*opens, *[""] * (len(COLUMNS) - len(opens))]
            for day, day_name in _named(week.days, _("Day %(number)s")):
                yield from _day_rows(day, [*opens, day_name], names)


def _day_rows(day: Day, opens: list[str], names: Mapping[int, str]) -> Iterator[list[str]]:
    if not day.slots:
        yield [*opens, *[""] * (len(COLUMNS) - len(opens))]
    for slot, label in zip(day.slots, labels(day.slots), strict=True):
        yield [*opens, *_slot_cells(slot, label, names)]


def _slot_cells(slot: Slot, label: str, names: Mapping[int, str]) -> list[str]:
    # The long dash keeps a spreadsheet from making a date out of a range.
    ranges = [show_range(one) for one in (slot.sets, slot.reps, slot.rir)]
    return [
        label[:1],
        names.get(slot.exercise, ""),
        *ranges,
        str(slot.rest_s),
        *map(printable, (slot.tempo, slot.note)),
    ]


def _named(parts: Sequence, pattern: str) -> list[tuple]:
    result, taken = [], set()
    for number, part in enumerate(parts, 1):
        name = first = " ".join(printable(part.name).split()) or pattern % {"number": number}
        again = 2
        while name in taken:
            name = f"{first[:70]} ({again})"
            again += 1
        taken.add(name)
        result.append((part, name))
    return result


def template_rows(names: Sequence[str]) -> list[list[str]]:
    """Return the rows of the file to start from: a week with a pair, a range of weeks, a heading row, a deload."""
    first, second, third = names
    return [
        ["Block 1", "1–3", "", "", "Day 1", "", first, "3", "8–12", "1–2", "2 min", "", "One row is one exercise."],
        ["", "", "", "", "", "A", second, "3–4", "10–15", "1–2", "90", "", ""],
        ["", "", "", "", "", "A", third, "3–4", "10–15", "1–2", "90", "3-1-1", ""],
        ["", "", "", "", "Day 2", "", second, "3", "8–12", "1–2", "", "", "Empty: as in the row above."],
        ["", "4", "yes", "Lighter", "Day 1", "", first, "2", "8–12", "3–4", "2 min", "", ""],
        ["", "", "", "", "Day 2", "", second, "2", "8–12", "3–4", "", "", ""],
    ]
