"""A program that a client is in the middle of, and short-hands to change it and to log."""

import datetime as dt
import uuid
from types import SimpleNamespace

from logbook.models import Session, SetLog
from programs.document.edits import Operation
from programs.services.assignment_make import program_assign
from programs.services.program_write import program_edit
from programs.services.revision_apply import revision_bring
from tests.programs.factories import document, make_library, make_program, slot


def make_gym(world, weeks=4, begun_days_ago=7, content=None):
    """`assignment`: two days a week, begun a week ago, so that one week is over and this day has a session."""
    library = make_library()
    today = world.client.user.today()
    program = make_program(world, library, weeks=weeks) if content is None else None
    gym = SimpleNamespace(**vars(world), library=library, program=program, today=today)
    gym.starts_on = today - dt.timedelta(days=begun_days_ago)
    weekdays = [gym.starts_on.weekday(), (gym.starts_on.weekday() + 3) % 7]

    def assign(*clients):
        return program_assign(
            program=program, clients=clients, starts_on=gym.starts_on, weekdays=weekdays, assigned_by=world.coach
        )

    def edit(name, **params):
        program.refresh_from_db()
        base = {"program": program, "user": world.coach, "base_version": program.version}
        program_edit(**base, operation=Operation(name, params))
        program.refresh_from_db()

    def bring(*assignments, take=()):
        program.refresh_from_db()
        return revision_bring(
            program=program,
            version=program.version,
            assignments=assignments or [gym.assignment],
            user=world.coach,
            take=take,
        )

    gym.assign, gym.edit, gym.bring = assign, edit, bring
    gym.rows = lambda: rows_of(gym.assignment)
    gym.session = lambda key: gym.assignment.sessions.get(day_key=key)
    (gym.assignment,) = assign(world.client)
    return gym


def begin(planned, finished=False, started_at=None):
    """Log that a planned session runs, or is done."""
    at = started_at or dt.datetime.now(dt.UTC)
    return Session.objects.create(
        id=uuid.uuid4(), client=planned.client, planned=planned, date=planned.date, started_at=at,
        finished_at=at if finished else None,
    )  # fmt: skip


def log_set(session, row):
    now = dt.datetime.now(dt.UTC)
    return SetLog.objects.create(
        client=session.client, session=session, slot=row, exercise=row.exercise, number=1, load=20, load_kg=20, reps=8,
        performed_at=now, edited_at=now,
    )  # fmt: skip


def rows_of(assignment):
    """Everything that a plan says, by session."""
    return {
        session.pk: (
            session.date, session.day_name, session.block_number, session.week_number, session.is_deload,
            session.cancelled_at,
            [
                (one.pk, one.slot_key, one.position, one.pair, one.exercise_id, one.sets_min, one.sets, one.reps_min,
                 one.reps_max, one.rir_min, one.rir_max, one.rest_s, one.tempo, one.note)
                for one in session.slots.all()
            ],
        )
        for session in assignment.sessions.prefetch_related("slots")
    }  # fmt: skip


__all__ = ["begin", "document", "log_set", "make_gym", "rows_of", "slot"]
