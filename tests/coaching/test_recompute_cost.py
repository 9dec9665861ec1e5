"""The cost of a recompute depends on the week, not on the years."""

import datetime as dt

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coaching.models import FlagRow, Prompt
from coaching.recompute import run
from coaching.recompute.calendar import LOOKBACK
from logbook.models import Session, SetLog
from periodization.flags import longest_window
from programs.models import PlannedSlot
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db
TRANSACTION = ("SAVEPOINT", "RELEASE", "BEGIN", "COMMIT")


def statements(client, exercises, since=None):
    """Log one set and return the statements of its recompute, but for those that open and close the transaction."""
    session = client.sessions.order_by("-date").first()
    make.log_set(session, exercises["curl"], 9, load=14.0)
    make.request(client, since or session.date)
    with CaptureQueriesContext(connection) as seen:
        weeks = run.work_off(client.pk)
    assert weeks
    return [q["sql"] for q in seen.captured_queries if not q["sql"].startswith(TRANSACTION)]


def years_of_history(client, exercises, copies, apart=1):
    """Put `copies` of the logged sessions into the weeks before the look back, one copy every `apart` weeks."""
    old = list(client.sessions.all())
    for copy in range(1, copies + 1):
        shift = LOOKBACK + dt.timedelta(weeks=2 + copy * apart)
        sessions = [
            Session(client=client, date=s.date - shift, started_at=s.started_at - shift, session_rpe=7, minutes=60)
            for s in old
        ]
        Session.objects.bulk_create(sessions)
        SetLog.objects.bulk_create(
            SetLog(
                client=client,
                session=session,
                exercise=exercises["squat"],
                number=n,
                load=90,
                load_kg=90,
                reps=8,
                rir=2,
                performed_at=session.started_at,
                edited_at=session.started_at,
            )
            for session in sessions
            for n in range(1, 14)
        )


def test_one_session_costs_at_most_twenty_queries_and_the_same_with_a_hundred_times_the_history(world, exercises):
    make.train(world.client, world.coach, exercises, weeks=2, ahead=2)
    run.work_off(world.client.pk)
    few = statements(world.client, exercises)
    assert len(few) <= 20, "\n".join(few)
    before = SetLog.objects.count()
    years_of_history(world.client, exercises, copies=100)
    assert SetLog.objects.count() > 100 * before
    run.work_off(world.client.pk)
    many = statements(world.client, exercises)
    assert len(many) == len(few)


def test_the_worst_week_stays_within_twenty_queries_too(world, exercises):
    """Pain, poor check-ins, falling strength, a prompt that appears: every kind of row is written at once."""
    make.train(world.client, world.coach, exercises, weeks=12, fade=2, seed=3)
    make.report_pain(world.client.sessions.order_by("-date").first(), exercises["curl"], 6)
    run.work_off(world.client.pk)
    FlagRow.objects.all().delete()
    PlannedSlot.objects.update(target_reps=None)
    seen = statements(world.client, exercises, since=make.monday(1))
    assert Prompt.objects.filter(week=make.monday(1)).exists()
    assert len(seen) <= 20, "\n".join(seen)


def test_the_look_back_holds_the_longest_window_of_any_rule():
    """A row's last day may be a Sunday, six days after its Monday, from which the look back is counted."""
    assert longest_window() <= LOOKBACK.days
