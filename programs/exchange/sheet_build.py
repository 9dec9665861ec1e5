"""Lines put together as a program: blocks, weeks, training days in the order of their first row."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from django.utils.translation import gettext as _

from programs.document import limits
from programs.document.keys import random_key
from programs.document.model import Block, Day, Document, Slot, Week
from programs.document.pairs import tidy
from programs.exchange.sheet_rows import Line, Lines

# Every week of every block with every row of a full day would be a book; this is what any real plan stays below.
MOST_SLOTS = 5000


@dataclass(slots=True)
class _Week:
    row: int
    index: int
    deload: bool = False
    note: str = ""
    days: dict[str, list[Line]] = field(default_factory=dict)


def build_document(found: Lines, make_key: Callable[[], str] = random_key) -> Document:
    """Return the program that the lines make; what is wrong between them is added to `found.problems`."""
    blocks: dict[str, dict[int, _Week]] = {}
    slots = 0
    for line in found.lines:
        weeks = blocks.setdefault(line.block, {})
        for number in range(line.weeks[0], line.weeks[1] + 1):
            week = weeks.setdefault(number, _Week(line.row, line.index))
            _tell_week(found, week, line)
            if line.day:
                day = week.days.setdefault(line.day, [])
                if line.exercise:
                    day.append(line)
                    slots += 1
        if slots > MOST_SLOTS:
            message = _("This makes more than %(most)s exercises in all weeks.") % {"most": f"{MOST_SLOTS:,}"}
            found.problem(line.row, line.index, "", "", message)
            break
    if len(blocks) > limits.BLOCKS:
        row, index = _first(found, lambda one: one.block == list(blocks)[limits.BLOCKS])
        found.problem(row, index, "block", "", _("A program has at most %(most)s blocks.") % {"most": limits.BLOCKS})
    return Document(
        tuple(
            Block(make_key(), name or _("Block %(number)s") % {"number": place}, _weeks(found, weeks, make_key))
            for place, (name, weeks) in enumerate(blocks.items(), 1)
        )
    )


def _tell_week(found: Lines, week: _Week, line: Line) -> None:
    week.deload = week.deload or line.deload
    if line.week_note and week.note and line.week_note != week.note:
        message = _("This week has another note already: “%(note)s”.") % {"note": week.note[:80]}
        found.problem(line.row, line.index, "week_note", line.week_note, message)
    week.note = week.note or line.week_note


def _weeks(found: Lines, weeks: dict[int, _Week], make_key: Callable[[], str]) -> tuple[Week, ...]:
    for place, number in enumerate(sorted(weeks), 1):
        if place != number:
            message = _("Weeks of a block are numbered 1, 2, 3 without a gap; week %(number)s is missing.")
            found.problem(weeks[number].row, weeks[number].index, "week", str(number), message % {"number": place})
            break
    result = []
    for number in sorted(weeks):
        week = weeks[number]
        if len(week.days) > limits.DAYS:
            message = _("A week has at most %(most)s training days; this one has %(count)s.")
            numbers = {"most": limits.DAYS, "count": len(week.days)}
            found.problem(week.row, week.index, "day", "", message % numbers)
        days = tuple(_day(found, name, lines, make_key) for name, lines in week.days.items())
        result.append(Week(make_key(), week.deload, week.note, days))
    return tuple(result)


def _day(found: Lines, name: str, lines: list[Line], make_key: Callable[[], str]) -> Day:
    if len(lines) > limits.SLOTS:
        last = lines[limits.SLOTS]
        message = _("A training day has at most %(most)s exercises.") % {"most": limits.SLOTS}
        found.problem(last.row, last.index, "", "", message)
    day = Day(make_key(), name, tuple(_slot(line, make_key) for line in lines))
    for before, line, after in zip([None, *lines], lines, [*lines[1:], None], strict=False):
        neighbours = [one.pair for one in (before, after) if one]
        if line.pair and line.pair not in neighbours:
            message = _("%(letter)s stands alone: exercises done in turn stand one under the other with one letter.")
            _once(found, line, message % {"letter": line.pair})
    return tidy(day)


def _once(found: Lines, line: Line, message: str) -> None:
    """Note it once, also where the row stands for several weeks."""
    place = found.places.get("pair", -1)
    if not any((one.index, one.place) == (line.index, place) for one in found.problems):
        found.problem(line.row, line.index, "pair", line.pair, message)


def _slot(line: Line, make_key: Callable[[], str]) -> Slot:
    return Slot(
        key=make_key(),
        exercise=line.exercise.pk if line.exercise else 0,
        pair=line.pair,
        sets=line.sets,
        reps=line.reps,
        rir=line.rir,
        rest_s=line.rest_s,
        tempo=line.tempo,
        note=line.note,
    )


def _first(found: Lines, is_it: Callable[[Line], bool]) -> tuple[int, int]:
    line = next(one for one in found.lines if is_it(one))
    return line.row, line.index


def with_numbered_keys(document: Document) -> Document:
    """Return the document under keys 1, 2, 3 ...: two readings of one table can then be compared."""
    numbers = iter(range(1, 10**9))

    def again(part):
        child = {Block: "weeks", Week: "days", Day: "slots"}.get(type(part))
        key = f"k{next(numbers)}"
        if child is None:
            return replace(part, key=key)
        return replace(part, key=key, **{child: tuple(again(one) for one in getattr(part, child))})

    return Document(tuple(again(block) for block in document.blocks))
