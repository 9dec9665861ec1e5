"""A running copy, fitted again: what the page shows, worked out from what was read once."""

import hashlib
import json
from collections.abc import Collection, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from datetime import date

from django.conf import settings

from accounts.models import Client
from coaching.fitting.facts import load_facts
from coaching.fitting.pool import Library, load_library
from coaching.fitting.rows import Difference, difference
from programs.document import Block, Document, Week
from programs.document.adapt import Change, adapt, slots_in
from programs.fit.again import Again, fit_again, fit_some_days
from programs.fit.effect import Effect, GroupEffect, effect, fullest_week, longest_day, week_volume
from programs.fit.model import Choice, ClientFacts, Proposal
from programs.fit.standing import Copy, Standing, with_exercises
from programs.models import Adaptation, Assignment
from programs.sentences import Words
from programs.services.adaptation_lines import Line, line
from programs.services.adaptation_words import fit_names
from programs.services.adaptations import Adapted, change_of
from programs.services.client_limits import dated_limits
from programs.services.copy_rewrite import decided_in, following_of, written_of
from programs.services.fit_since import fitted_on
from programs.services.limits import Limits
from programs.services.revision_plan import CANCELLED, OPEN, Following, state_of
from programs.services.targets import target_ranges_for


@dataclass(frozen=True, slots=True)
class SomeDays:
    """A few days elsewhere: the first and the last, what is there (None: what the client has otherwise), minutes."""

    first: date
    last: date
    equipment: frozenset[int] | None = None
    minutes: int | None = None


@dataclass(frozen=True, slots=True)
class Proposed:
    """One new difference, what it stands in for, and what it alone would do to the week."""

    difference: Difference
    instead_of: list[Line]
    groups: tuple[GroupEffect, ...]


@dataclass(frozen=True, slots=True)
class Gone:
    """An earlier difference without a reason now; `must`: it brings what the client is kept from."""

    line: Line
    must: bool
    back: bool


@dataclass(frozen=True, slots=True)
class AgainPage:
    again: Again
    proposed: list[Proposed]
    gone: list[Gone]
    effect: Effect | None

    @property
    def asks(self) -> bool:
        return bool(self.proposed or self.gone)


class AgainDesk:
    """Everything that is read for one copy (22 queries at most); `page` works out the rest, as often as is needed."""

    def __init__(self, assignment: Assignment, days: SomeDays | None) -> None:
        self.assignment, self.days = assignment, days
        client: Client = assignment.client
        self.written = written_of(assignment)
        following = following_of(assignment, self.written)
        self.open = _open_days(following, days)
        self.rows = list(Adaptation.objects.filter(assignment=assignment, undone_at=None).select_related("created_by"))
        today = client.user.today()
        self.first = fitted_on(assignment, today)
        self.limits = dated_limits(client, today)
        self.standing = [self._standing(row) for row in self.rows]
        self.copy = Copy(
            self.written,
            self.open,
            self.standing,
            assignment.program.written_for,
            decided_in(following),  # type: ignore[union-attr]
        )
        named = {pk for one in self.standing for pk in (one.change.exercise, one.change.to) if pk}
        written = {slot.exercise for slot in slots_in(self.written)} | set(self.copy.decided.values())
        self.library: Library = load_library(client.practice, written | named)
        self.facts: ClientFacts = self._facts()
        self.targets = target_ranges_for(client, self.library.anatomy.groups)
        names = fit_names(()) | dict(self.library.limit_names)
        exercises = {str(pk): one.name for pk, one in self.library.pool.exercises.items()}
        self.words = Words(client.user.load_unit, self.library.anatomy.groups, exercises, names)
        self.week = self._week()

    def _standing(self, row: Adaptation) -> Standing:
        dated = row.until is not None
        # What was done for some days only is judged by the limits of those.
        limits = self.limits.during(row.starts_on or self.first, row.until) if dated else None
        return Standing(row.pk, change_of(row), row.reason_params, row.edited, dated, limits)

    def _facts(self) -> ClientFacts:
        """Return the facts for the days that are fitted."""
        client, days = self.assignment.client, self.days
        first = max(self.first, days.first) if days else self.first
        facts = load_facts([client], first)[client.pk]
        return _elsewhere(facts, days, self.limits.during(first, days.last)) if days else facts

    @property
    def seen(self) -> str:
        """Return a digest of all that the proposals come from: with another one, the page is not what was read."""
        known = [asdict(self.facts), [asdict(one) for one in self.standing], asdict(self.days) if self.days else None]
        said = json.dumps([*known, self.assignment.program_version, self.open, self.copy.decided], default=_plain)
        return hashlib.sha256(said.encode()).hexdigest()[:20]

    def page(self, choices: Mapping[str, Choice], kept: Collection[int]) -> AgainPage:
        """Return what is proposed with these choices; `kept` are ids of what has no reason and stays all the same."""
        make = fit_some_days if self.days else fit_again
        again = make(self.copy, self.facts, self.library.pool, formula=settings.E1RM_EQUATION, choices=choices)
        lines = {row.pk: line(row, self.words) for row in self.rows}
        gone = [Gone(lines[pk], pk in again.must_go, pk not in kept) for pk in again.gone]
        proposed = [
            Proposed(difference(one), [lines[pk] for pk in again.replaces.get(one.id, ())], self._alone(one, again))
            for one in again.proposals
        ]
        changes = again.changes(self.standing, [one.line.row.pk for one in gone if one.back])
        return AgainPage(again, proposed, gone, self._effect(changes))

    def adapted(self, again: Again) -> list[Adapted]:
        """Return what is recorded: the accepted proposals."""
        days = (self.days.first, self.days.last) if self.days else None
        return [
            Adapted(one.change, one.reason, dict(one.params), one.edited, days)
            for one in again.proposals
            if one.accepted
        ]

    def _week(self) -> Week | None:
        """Return the fullest of the weeks that are open altogether, else of those with an open day."""
        document = with_exercises(self.written, self.copy.given)
        weeks = [week for block in document.blocks for week in block.weeks]
        some = [week for week in weeks if any(day.key in self.open for day in week.days)]
        whole = [week for week in some if all(day.key in self.open for day in week.days if day.slots)]
        return fullest_week(Document((Block("", "", tuple(whole or some)),)))

    def _as(self, week: Week, changes: Sequence[Change]) -> Week:
        """Return the week as the copy has it with `changes` on its open days; the others stay as they are."""
        now = _of_week(week, [one.change for one in self.standing])
        then = {day.key: day for day in _of_week(week, changes).days}
        return replace(now, days=tuple(then[day.key] if day.key in self.open else day for day in now.days))

    def _effect(self, changes: Sequence[Change]) -> Effect | None:
        if self.week is None:
            return None
        exercises, anatomy = self.library.pool.exercises, self.library.anatomy
        now = self._as(self.week, [one.change for one in self.standing])
        before = week_volume(now, exercises, anatomy)
        return effect(
            before, longest_day(now, exercises), self._as(self.week, changes), exercises, anatomy, self.targets
        )

    def _alone(self, one: Proposal, again: Again) -> tuple[GroupEffect, ...]:
        if one.change.kind in ("careful", "start"):
            return ()
        off = again.replaces.get(one.id, ())
        found = self._effect([*(row.change for row in self.standing if row.pk not in off), one.change])
        return found.groups if found else ()


def _of_week(week: Week, changes: Sequence[Change]) -> Week:
    # A careful first session says nothing of the weeks.
    lasting = [one for one in changes if one.kind not in ("careful", "start")]
    return adapt(Document((Block("", "", (week,)),)), lasting).blocks[0].weeks[0]


def _open_days(following: Following, days: SomeDays | None) -> frozenset[str]:
    """Return the keys of the training days that may still be written, in the version that the copy follows.

    For the whole copy also those of which adaptations left nothing, so that it has no session or a cancelled one: they
    may come again.
    """
    found, fixed = set(), set()
    for session in following.sessions:
        if session.program_version not in following.written:
            continue
        origin = following.written[session.program_version]
        key, day = origin.to(session.day_key), origin.days.get(session.day_key)
        state = state_of(session, following)
        emptied = state == CANCELLED and day is not None and not day.slots and session.date >= following.since
        if days is not None:
            found |= {key} if state == OPEN and days.first <= session.date <= days.last else set()
        else:
            (found if state == OPEN or emptied else fixed).add(key)
    if days is None:
        for week in following.new.weeks:
            keys = {day.key for day in week.days}
            found |= keys - fixed if keys & found else set()
    return frozenset(found)


def _elsewhere(facts: ClientFacts, days: SomeDays, limits: Limits) -> ClientFacts:
    return replace(
        facts,
        limits=limits,
        equipment=facts.equipment if days.equipment is None else days.equipment,
        minutes=facts.minutes if days.minutes is None else days.minutes,
    )


def _plain(value: object) -> object:
    return sorted(value) if isinstance(value, set | frozenset) else str(value)
