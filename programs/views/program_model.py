"""What the editor shows of one week: plain values, so that the templates only write them out."""

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, field, replace

from django.utils.dates import WEEKDAYS
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from periodization.duration import whole_minutes
from programs.document import Day, Slot, labels, written
from programs.document.edits.slots import shown
from programs.services.tally_facts import ExerciseFacts
from programs.services.week_view import WeekDesk


@dataclass(frozen=True, slots=True)
class Problem:
    """A change that was refused: of which part, in which field, why, and everything that was typed."""

    key: str
    field: str
    message: str
    typed: Mapping[str, str] = field(default_factory=dict)


# Where nothing was refused. A template that asks None for its field looks for it in four ways each time.
NO_PROBLEM = Problem("", "", "")


@dataclass(frozen=True, slots=True)
class SlotView:
    """`fields` are (name, label, value) of the form's fields."""

    slot: Slot
    number: int
    label: str
    fact: ExerciseFacts | None
    line: str
    fields: Sequence[tuple[str, str, str]]
    last: bool
    problem: Problem

    @property
    def name(self) -> str:
        return self.fact.name if self.fact else _("an exercise that is gone")

    @property
    def index(self) -> int:
        return self.number - 1


@dataclass(frozen=True, slots=True)
class DayView:
    """`drawn` are the slots that are written out: all, or only those that have changed (`only`); `others` the other
    days of the week."""

    day: Day
    number: int
    weekday: str
    weekday_number: int
    minutes: int
    sets: int
    slots: Sequence[SlotView]
    drawn: Sequence[SlotView]
    before: str  # key of the day on its left, or empty
    after: str
    others: Sequence[tuple[str, str]]  # key and name
    last: bool
    problem: Problem


def day_views(desk: WeekDesk, problem: Problem | None = None) -> list[DayView]:
    """Lay out the days of a week."""
    days, weekdays, sums = desk.week.days, desk.weekdays, desk.sums
    names = {name: str(label) for name, label in LABELS.items()}
    return [
        DayView(
            day=day,
            number=place + 1,
            weekday=str(WEEKDAYS[weekdays[place]]) if place < len(weekdays) else "",
            weekday_number=weekdays[place] if place < len(weekdays) else place,
            minutes=whole_minutes(sums.minutes[day.key]),
            sets=sums.sets[day.key],
            slots=(slots := _slot_views(day, desk.facts, names, problem)),
            drawn=slots,
            before=days[place - 1].key if place else "",
            after=days[place + 1].key if place + 1 < len(days) else "",
            others=[(other.key, other.name) for other in days if other.key != day.key],
            last=place + 1 == len(days),
            problem=problem if problem and problem.key == day.key else NO_PROBLEM,
        )
        for place, day in enumerate(days)
    ]


def only(days: Sequence[DayView], keys: Container[str]) -> list[DayView]:
    """Return the days with only the slots of these keys drawn."""
    return [replace(day, drawn=[slot for slot in day.slots if slot.slot.key in keys]) for day in days]


LABELS = {
    "sets": gettext_lazy("Sets"),
    "reps": gettext_lazy("Reps"),
    "rir": gettext_lazy("RIR"),
    "rest_s": gettext_lazy("Rest, s"),
    "tempo": gettext_lazy("Tempo"),
    "note": gettext_lazy("Note to the client"),
}


def _slot_views(
    day: Day, facts: Mapping[int, ExerciseFacts], names: Mapping[str, str], problem: Problem | None
) -> list[SlotView]:
    result = []
    for place, (slot, label) in enumerate(zip(day.slots, labels(day.slots), strict=True)):
        mine = problem if problem and problem.key == slot.key else NO_PROBLEM
        typed = mine.typed
        result.append(
            SlotView(
                slot=slot,
                number=place + 1,
                label=label,
                fact=facts.get(slot.exercise),
                line=typed.get("text", written(slot)),
                fields=[(name, label, typed.get(name, shown(slot, name))) for name, label in names.items()],
                last=place + 1 == len(day.slots),
                problem=mine,
            )
        )
    return result
