"""Pause, resume, shift and end; what has been logged never changes."""

import datetime as dt

import pytest
from django.utils import timezone

from programs.models import PlannedSession
from programs.services.assignment_end import assignment_end
from programs.services.assignment_make import program_assign
from programs.services.assignment_move import MoveError, assignment_pause, assignment_resume, assignment_shift
from tests.programs.factories import make_library, make_program

MONDAY = dt.date(2026, 11, 30)


@pytest.fixture
def assignment(world):
    program = make_program(world, make_library(), weeks=3)
    known = {"starts_on": MONDAY, "weekdays": [0, 3], "assigned_by": world.coach}
    return program_assign(program=program, clients=[world.client], **known)[0]


def day(number):
    return MONDAY + dt.timedelta(days=number)


def offsets(assignment, *, due=True):
    """Days after the first Monday on which something is due (or, if not, is cancelled)."""
    rows = PlannedSession.objects.filter(assignment=assignment, cancelled_at__isnull=due)
    return [(one.date - MONDAY).days for one in rows.order_by("date", "pk")]


def log(assignment, number):
    """Log the session on that day, through the room above, as the phone would."""
    planned = assignment.sessions.get(date=day(number))
    sessions = type(planned).performed.related.related_model.objects
    return sessions.create(client=assignment.client, planned=planned, date=planned.date, started_at=timezone.now())


def test_a_shift_moves_what_is_open_from_that_day_on(assignment):
    assignment_shift(assignment=assignment, since=day(7), days=7)
    assert offsets(assignment) == [0, 3, 14, 17, 21, 24]


def test_a_shift_by_part_of_a_week_moves_the_weekdays_with_it(assignment):
    assignment_shift(assignment=assignment, since=day(0), days=2)
    assignment.refresh_from_db()
    assert (offsets(assignment)[:2], assignment.weekdays) == ([2, 5], [2, 5])


def test_what_is_logged_stays_where_it_is(assignment):
    log(assignment, 7)
    assignment_shift(assignment=assignment, since=day(0), days=7)
    assert offsets(assignment) == [7, 7, 10, 17, 21, 24]
    assignment_pause(assignment=assignment, since=day(0))
    assert offsets(assignment) == [7]
    assignment_end(assignment=assignment, last_day=day(-1))
    assert offsets(assignment) == [7]


@pytest.mark.parametrize(("since", "days"), [(0, 0), (0, 57), (0, -57), (7, -1), (99, 7)])
def test_a_shift_that_does_not_fit_changes_nothing(assignment, since, days):
    with pytest.raises(MoveError):
        assignment_shift(assignment=assignment, since=day(since), days=days)
    assert offsets(assignment) == [0, 3, 7, 10, 14, 17]


def test_nothing_is_due_in_a_pause_and_resuming_moves_by_whole_weeks(assignment):
    assignment_pause(assignment=assignment, since=day(5))
    assert (offsets(assignment), offsets(assignment, due=False)) == ([0, 3], [7, 10, 14, 17])
    assignment_resume(assignment=assignment, since=day(15))
    assert offsets(assignment) == [0, 3, 21, 24, 28, 31]
    assignment.refresh_from_db()
    assert (assignment.status, assignment.paused_on, assignment.paused_at) == ("active", None, None)


@pytest.mark.parametrize(("since", "first"), [(5, 7), (7, 7), (8, 14), (14, 14)])
def test_resuming_moves_by_no_more_weeks_than_needed(assignment, since, first):
    assignment_pause(assignment=assignment, since=day(5))
    assignment_resume(assignment=assignment, since=day(since))
    assert offsets(assignment)[2] == first


def test_resuming_brings_back_only_what_the_pause_cancelled(assignment):
    assignment.sessions.filter(date=day(10)).update(cancelled_at=timezone.now())
    assignment_pause(assignment=assignment, since=day(5))
    assignment_resume(assignment=assignment, since=day(5))
    assert offsets(assignment) == [0, 3, 7, 14, 17]


def test_an_end_cancels_what_comes_after_its_last_day(assignment):
    ended = assignment_end(assignment=assignment, last_day=day(7))
    assert (ended.status, ended.ended_on) == ("ended", day(7))
    assert (offsets(assignment), offsets(assignment, due=False)) == ([0, 3, 7], [10, 14, 17])


def test_only_what_runs_can_be_moved_and_only_what_is_paused_resumed(assignment):
    with pytest.raises(MoveError):
        assignment_resume(assignment=assignment, since=day(0))
    assignment_pause(assignment=assignment, since=day(5))
    for refused in (
        lambda: assignment_pause(assignment=assignment, since=day(5)),
        lambda: assignment_shift(assignment=assignment, since=day(5), days=7),
        lambda: assignment_resume(assignment=assignment, since=day(4)),
    ):
        with pytest.raises(MoveError):
            refused()
