"""What a later version of a program would change in one client's copy. Reads nothing but what it is given."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from programs.models import Assignment, PlannedSession
from programs.services.revision_dates import Held, NewDates, new_dates
from programs.services.revision_slots import SlotStep, fields_of, slot_steps
from programs.services.revision_written import Written, contents

# States of a session, and (but for the first two) why it is left alone.
OPEN, PAST, LOGGED, RUNNING, CANCELLED = "open", "past", "logged", "running", "cancelled"
# Further reasons to leave something alone.
UNKNOWN, LATE, ADAPTED, KEPT = "unknown", "late", "adapted", "kept"


@dataclass(frozen=True, slots=True)
class SessionStep:
    """What happens to one session. `session` None: it is made; `fields` are those that change, `cancels`: its day is
    no longer in the program."""

    session: PlannedSession | None
    date: date
    day_name: str
    fields: dict[str, Any]
    slots: list[SlotStep] = field(default_factory=list)
    cancels: bool = False
    before: date | None = None  # the date until now

    @property
    def offered(self) -> bool:
        """Whether rows of it were changed for this client."""
        return any(step.offered for step in self.slots)

    def days(self) -> list[date]:
        """Return the days whose plan changes: the new date, and the old one of what moves."""
        before = self.before
        return [self.date] if before is None else [self.date, before]


@dataclass(frozen=True, slots=True)
class LeftAlone:
    date: date | None
    day: str
    why: str


@dataclass(frozen=True, slots=True)
class Following:
    """One assignment with what its plan is worked out from. `touched`: ids of sessions in which something is logged.

    `written` by version: what rows were written from. Nothing before `since` is changed.
    """

    assignment: Assignment
    sessions: list[PlannedSession]
    touched: set[int]
    written: Mapping[int, Written]
    new: Written
    since: date


@dataclass(frozen=True, slots=True)
class RevisionPlan:
    following: Following
    to_version: int
    steps: list[SessionStep]
    left_alone: list[LeftAlone]

    @property
    def assignment(self) -> Assignment:
        return self.following.assignment

    @property
    def unknown(self) -> bool:
        """Whether the copy does not say what it came from, so that nothing can be brought to it."""
        return any(one.why == UNKNOWN for one in self.left_alone)


def revision_plan(one: Following, to_version: int) -> RevisionPlan:
    """Work out the steps from the version followed to the new one, in the order of dates."""
    known = one.written
    followed = known.get(one.assignment.program_version)
    if followed is None or any(not row.day_key or row.program_version not in known for row in one.sessions):
        # Without its origin a row cannot be told from one that was changed for this client.
        return RevisionPlan(one, to_version, [], [LeftAlone(None, "", UNKNOWN)])
    dates = _dates(one, followed)
    steps: list[SessionStep] = []
    alone: list[LeftAlone] = []
    for session in one.sessions:
        step, why = _of_session(session, one, dates, to_version)
        if step is not None:
            steps.append(step)
        if why:
            alone.append(LeftAlone(session.date, session.day_name, why))
    there = {_key(session, one) for session in one.sessions}
    steps.extend(_made(key, on, one, to_version) for key, on in dates.dates.items() if key not in there)
    alone.extend(LeftAlone(None, one.new.days[key].name, LATE) for key in dates.left_out)
    last = one.assignment.ended_on
    if last is not None:
        steps = [_within(step, last) for step in steps if step.session is not None or step.date <= last]
    steps.sort(key=lambda step: step.date)
    return RevisionPlan(one, to_version, steps, alone)


def _within(step: SessionStep, last: date) -> SessionStep:
    """Cancel what would move past the last day."""
    if step.session is None or step.date <= last or step.session.date > last:
        return step
    return SessionStep(step.session, step.session.date, step.day_name, {}, [], True, step.session.date)


def state_of(session: PlannedSession, one: Following) -> str:
    """Return whether a session may be changed, and if not, why."""
    if session.pk in one.touched:
        performed = getattr(session, "performed", None)
        return RUNNING if performed is not None and performed.finished_at is None else LOGGED
    paused_at = one.assignment.paused_at
    if session.cancelled_at is not None and (paused_at is None or session.cancelled_at != paused_at):
        return CANCELLED
    return PAST if session.date < one.since else OPEN


def _taken_out(session: PlannedSession, one: Following, state: str) -> bool:
    """Say whether an earlier revision cancelled it, or adaptations that left nothing of it: its day may come again, and
    is then dated as a new one."""
    day = one.written[session.program_version or 0].days.get(session.day_key)
    return state == CANCELLED and (day is None or not day.slots)


def _key(session: PlannedSession, one: Following) -> str:
    """Return the key of the session's training day in the new version; its own when the day is gone."""
    return one.written[session.program_version or 0].to(session.day_key)


def _dates(one: Following, followed: Written) -> NewDates:
    held = []
    for session in one.sessions:
        key = _key(session, one)
        week = one.new.week_of.get(key)
        origin = one.written[session.program_version or 0]
        state = state_of(session, one)
        if _taken_out(session, one, state):
            continue
        held.append(
            Held(
                week.key if week else origin.to(session.week_key),
                key,
                session.date,
                state in (LOGGED, RUNNING, PAST),
            )
        )
    return new_dates(
        [followed.to(week.key) for week in followed.weeks],
        {followed.to(week.key): [followed.to(day.key) for day in week.days] for week in followed.weeks},
        one.new.document,
        held,
        one.assignment.starts_on,
        one.assignment.weekdays,
        one.since,
    )


def _of_session(
    session: PlannedSession, one: Following, dates: NewDates, to_version: int
) -> tuple[SessionStep | None, str]:
    """Return what happens to a session, or why the program's change does not reach it; neither when there is none."""
    origin = one.written[session.program_version or 0]
    key = _key(session, one)
    state = state_of(session, one)
    stays = key in dates.dates
    if _taken_out(session, one, state) and stays:
        return _rewritten(session, one, dates.dates[key], to_version, {"cancelled_at": None}), ""
    differs = contents(origin, session.day_key) != contents(one.new, key)
    if state in (PAST, CANCELLED):
        return None, CANCELLED if state == CANCELLED and differs and session.date >= one.since else ""
    if state in (LOGGED, RUNNING):
        return None, state if differs else ""
    if not stays:
        rows = slot_steps(list(session.slots.all()), origin.rows(session.day_key), [], origin.mapped)
        return SessionStep(session, session.date, session.day_name, {}, rows, True, session.date), ""
    step = _rewritten(session, one, dates.dates[key], to_version, {})
    raw = contents(origin, session.day_key, raw=True) != contents(one.new, key, raw=True)
    return (step if step.fields or step.slots else None), ADAPTED if raw and not differs else ""


def _rewritten(session: PlannedSession, one: Following, on: date, to_version: int, more: dict[str, Any]) -> SessionStep:
    origin = one.written[session.program_version or 0]
    key = _key(session, one)
    was = origin.numbers.get(session.day_key, {})
    wanted = {**one.new.numbers[key], "date": on}
    # A deload by decision stays where the program says nothing new.
    if was.get("is_deload") == wanted["is_deload"]:
        wanted["is_deload"] = session.is_deload
    fields = {name: value for name, value in wanted.items() if getattr(session, name) != value} | more
    rows = list(session.slots.all())
    # A day that comes back is as it went, whatever version that was.
    base = origin.rows(session.day_key) or [fields_of(row) for row in rows]
    steps = slot_steps(rows, base, one.new.rows(key), origin.mapped)
    if fields or steps:
        fields["program_version"] = to_version
    return SessionStep(session, on, one.new.days[key].name, fields, steps, before=session.date)


def _made(key: str, on: date, one: Following, to_version: int) -> SessionStep:
    fields = {**one.new.numbers[key], "date": on, "program_version": to_version}
    rows = [SlotStep(None, None, row) for row in one.new.rows(key)]
    return SessionStep(None, on, one.new.days[key].name, fields, rows)
