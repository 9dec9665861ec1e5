"""What a hand-out is made of: a program's document, or the dated copy that one client follows."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import groupby

from django.utils.translation import gettext as _

from programs.document import Block, Day, Document, Slot, Week, document_from_json
from programs.models import Assignment, PlannedSession, PlannedSlot, Program, ProgramRevision


@dataclass(frozen=True, slots=True)
class NumberedWeek:
    """One week in the order of the whole program (`place` from 1); `number` counts within its block."""

    place: int
    number: int
    block: Block
    week: Week

    @property
    def label(self) -> str:
        return _("%(block)s, week %(number)s") % {"block": self.block.name, "number": self.number}


@dataclass(frozen=True, slots=True)
class Source:
    """`dates` are by a training day's key and empty for a program, whose days have no dates yet. `starts`: where the
    client begins, in kg, by the key of the first slot with an exercise; `unit` is the one they think in."""

    title: str
    document: Document
    dates: Mapping[str, dt.date] = field(default_factory=dict)
    starts: Mapping[str, float] = field(default_factory=dict)
    unit: str = "kg"

    def weeks(self) -> list[NumberedWeek]:
        counted = [
            (number, block, week) for block in self.document.blocks for number, week in enumerate(block.weeks, 1)
        ]
        return [NumberedWeek(place, *one) for place, one in enumerate(counted, 1)]

    def first_week_from(self, today: dt.date) -> int:
        """Return the place of the first week that is not over on `today`; 1 where nothing has a date or all is over."""
        for one in self.weeks():
            if any(self.dates.get(day.key, dt.date.min) >= today for day in one.week.days):
                return one.place
        return 1


def source_of_program(program: Program) -> Source:
    """Read a program as it is now."""
    return Source(program.name, document_from_json(program.document))


def source_of_revision(revision: ProgramRevision) -> Source:
    """Read one version of a program; fetch its `program` with it."""
    return Source(revision.program.name, document_from_json(revision.document))


def source_of_assignment(assignment: Assignment) -> Source:
    """Read a client's copy as it stands, without cancelled sessions (two queries). Fetch its client's user with it."""
    rows = assignment.sessions.filter(cancelled_at=None).prefetch_related("slots")
    sessions = list(rows.order_by("block_number", "week_number", "date", "pk"))
    blocks = []
    for number, of_block in groupby(sessions, key=lambda one: one.block_number):
        weeks, name = [], ""
        for week_number, of_week in groupby(of_block, key=lambda one: one.week_number):
            days = list(of_week)
            name = days[0].block_name
            weeks.append(
                Week(f"w{number}-{week_number}", days[0].is_deload, days=tuple(_day(session) for session in days))
            )
        blocks.append(Block(f"b{number}", name, tuple(weeks)))
    rows = [slot for session in sessions for slot in session.slots.all()]
    return Source(
        assignment.name,
        Document(tuple(blocks)),
        dates={_key(one): one.date for one in sessions},
        starts={f"s{row.pk}": row.start_load_kg for row in rows if row.start_load_kg is not None},
        unit=assignment.client.user.load_unit,
    )


def _key(session: PlannedSession) -> str:
    return f"d{session.pk}"


def _day(session: PlannedSession) -> Day:
    return Day(_key(session), session.day_name, tuple(_slot(row) for row in session.slots.all()))


def _slot(row: PlannedSlot) -> Slot:
    return Slot(
        key=f"s{row.pk}",
        exercise=row.exercise_id,
        pair=row.pair[:1],
        sets=(row.sets_min or row.sets, row.sets),
        reps=(row.reps_min, row.reps_max),
        rir=(row.rir_min, row.rir_max),
        rest_s=row.rest_s,
        tempo=row.tempo,
        weaker_first=row.weaker_first,
        load_pct=row.load_pct,
        note=row.note,
    )
