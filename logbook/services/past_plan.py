"""What bringing a table of past training in would do. Nothing is saved here."""

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from django.db.models import Q
from django.utils.translation import gettext as _

from accounts.models import Client
from logbook.past.columns import SETS
from logbook.past.day_lines import DayLine, DayLines, read_days
from logbook.past.reading import HowToRead, PastReading
from logbook.past.set_lines import SetLine, SetLines, read_sets
from logbook.services.past_logged import NewDays, NewSets, new_days, new_sets
from programs.models import Exercise
from programs.services.program_import import catalogue_of
from programs.sheets.plan import TablePlan
from programs.sheets.problems import rows_words
from programs.sheets.table import Table


@dataclass(slots=True)
class PastPlan(TablePlan):
    """`found` is what the table says, `sets` or `days` what of it is new. `asks_order`: say whether day or month comes
    first; `asks_sure`: say that the heavy loads are right."""

    how: HowToRead | None = None
    found: PastReading | None = None
    sets: NewSets = field(default_factory=NewSets)
    days: NewDays = field(default_factory=NewDays)

    @property
    def asks_order(self) -> bool:
        return bool(self.found and self.found.asks_order)

    @property
    def heavy(self) -> str:
        """The rows with loads over 600 kg, in words."""
        return rows_words([line.row for line in self.found.heavy]) if isinstance(self.found, SetLines) else ""

    @property
    def asks_sure(self) -> bool:
        return bool(self.heavy) and not (self.how and self.how.sure)

    @property
    def readable(self) -> bool:
        return not (self.headings_wrong or self.wrong or self.unknown or self.unknown_more or self.asks_order)

    @property
    def new(self) -> Sequence[SetLine | DayLine]:
        return [*self.sets.lines, *self.days.check_ins, *self.days.masses]

    @property
    def is_right(self) -> bool:
        return self.readable and not self.asks_sure and bool(self.new)

    @property
    def nothing_new(self) -> bool:
        return self.readable and not self.new

    @property
    def first_day(self) -> dt.date:
        return min(line.date for line in self.new)

    @property
    def last_day(self) -> dt.date:
        return max(line.date for line in self.new)

    @property
    def sessions(self) -> int:
        return len({line.key for line in self.sets.lines})

    @property
    def exercises(self) -> int:
        return len({line.exercise for line in self.sets.lines})

    @property
    def skipped(self) -> int:
        return len(self.sets.same) + len(self.sets.other) + len(self.days.same)


def past_plan(table: Table, client: Client, how: HowToRead) -> PastPlan:
    """Say what the table would become: three queries, however long it is."""
    return past_compare(past_read(table, client, how), client)


def past_read(
    table: Table, client: Client, how: HowToRead, told: Callable[[int], None] = lambda rows: None
) -> PastPlan:
    """Read the table, without a look at the log: what takes longest, and needs nobody to wait."""
    plan = PastPlan(table, how=how)
    if table.layout is SETS:
        catalogue = catalogue_of(client.practice)
        rows = Exercise.objects.filter(Q(practice=None) | Q(practice=client.practice_id))
        facts = {pk: tuple(told) for pk, *told in rows.values_list("pk", "laterality", "load_kind", "rep_unit")}
        found = read_sets(table, catalogue, facts, how, told)
        plan.found = found
        plan.take(found, catalogue)
    else:
        plan.found = days = read_days(table, how, told)
        plan.take(days)
    return plan


def past_compare(plan: PastPlan, client: Client) -> PastPlan:
    """Part what was read into what is new and what is logged already."""
    if plan.readable and isinstance(plan.found, SetLines):
        plan.sets = new_sets(client, plan.found.lines)
    elif plan.readable and isinstance(plan.found, DayLines):
        plan.days = new_days(client, plan.found.lines)
    plan.notes += _left_out(plan)
    return plan


def _left_out(plan: PastPlan) -> list[str]:
    notes = []
    for lines, one, many in (
        (
            plan.sets.same,
            _("%(count)d set is logged already and is left out (row %(rows)s)."),
            _("%(count)d sets are logged already and are left out (rows %(rows)s)."),
        ),
        (
            plan.sets.other,
            _("%(count)d set is logged already with another load or other repetitions. The log stands (row %(rows)s)."),
            _("%(count)d sets are logged already with other loads or repetitions. The log stands (rows %(rows)s)."),
        ),
        (
            plan.days.same,
            _("%(count)d day has a check-in or a body mass already, which stands (row %(rows)s)."),
            _("%(count)d days have a check-in or a body mass already, which stand (rows %(rows)s)."),
        ),
    ):
        if lines:
            words = one if len(lines) == 1 else many
            notes.append(words % {"count": len(lines), "rows": rows_words([line.row for line in lines])})
    return notes
