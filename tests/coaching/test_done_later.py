"""A planned session that was done on another day says so; done after its week's row was final, that it counts not."""

import datetime as dt

import pytest
from django.urls import reverse

from coaching.models import WeekSummary
from coaching.reads.plan_done import plan_and_done
from coaching.recompute import run
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db
DAY = dt.timedelta(days=1)


@pytest.fixture
def planned(world, exercises):
    """A session planned for the Wednesday three weeks ago."""
    plan = make.make_assignment(world.client, world.coach, make.monday(3))
    return make.make_day(plan, make.monday(3) + 2 * DAY, [(exercises["curl"], 1)])


def do(planned, exercises, days):
    session = make.begin(planned.client, planned.date + days * DAY, planned)
    make.log_set(session, exercises["curl"], 1, slot=planned.slots.get())
    run.work_off(planned.client_id)
    return session


def text_of(client, name, *args, **query):
    return " ".join(client.get(reverse(name, args=args), query).text.split())


@pytest.mark.parametrize(
    ("days", "moved", "too_late", "counted"),
    [(0, False, False, 1), (-1, True, False, 1), (2, True, False, 1), (5, True, False, 1), (6, True, True, 0)],
)
def test_a_session_counts_in_its_week_until_the_monday_after(world, planned, exercises, days, moved, too_late, counted):
    session = do(planned, exercises, days)
    (day,) = plan_and_done(world.client, make.monday(3), make.monday())
    assert (day.state, day.moved_to) == ("done", session.date if moved else None)
    assert day.too_late == too_late
    own = WeekSummary.objects.get(client=world.client, week=make.monday(3)).compliance
    assert (own["sessions_done"], own["sessions_planned"]) == (counted, 1)
    after = WeekSummary.objects.get(client=world.client, week=make.monday(2)).compliance
    assert (after["sessions_done"], after["extra_sets"]) == (0, 1 if days >= 5 else 0)


def test_the_pages_say_when_it_was_done(client, world, planned, exercises):
    done = do(planned, exercises, 6).date
    words = f"done later, on {done:%a} {done.day} {done:%b}"
    client.force_login(world.coach)
    week = text_of(client, "client-page", world.client.pk, week=make.monday(3).isoformat())
    assert words in week
    assert "too late to count as done in this week" in week
    assert words in text_of(client, "assignment-detail", planned.assignment_id)
    client.force_login(world.client.user)
    assert words in text_of(client, "plan", week=make.monday(3).isoformat())


def test_a_session_done_on_its_day_says_nothing_of_it(client, world, planned, exercises):
    do(planned, exercises, 0)
    client.force_login(world.coach)
    week = text_of(client, "client-page", world.client.pk, week=make.monday(3).isoformat())
    assert "done later" not in week
    assert "done before" not in week
