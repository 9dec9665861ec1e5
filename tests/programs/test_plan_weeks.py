"""A client's copy of a program opens at the week that runs, with a way to the others."""

import datetime as dt

import pytest
from django.urls import reverse

from programs.services.assignment_make import program_assign
from programs.services.plan_weeks import WEEK, plan_weeks
from tests.programs.factories import make_library, make_program

MONDAY = dt.date(2026, 11, 30)
WEEKS = 10


@pytest.fixture
def program(world):
    return make_program(world, make_library(), weeks=WEEKS)


def assign(world, program, starts_on=MONDAY):
    known = {"starts_on": starts_on, "weekdays": [0, 3], "assigned_by": world.coach}
    return program_assign(program=program, clients=[world.client], **known)[0]


@pytest.fixture
def plan(world, program):
    return assign(world, program)


def shown(page):
    """The weeks shown, counted from the plan's first."""
    return [(week.monday - MONDAY) // WEEK + 1 for week in page.weeks]


@pytest.mark.parametrize(
    ("today", "weeks"),
    [
        (MONDAY - dt.timedelta(days=30), [1, 2, 3, 4]),  # not begun
        (MONDAY, [1, 2, 3, 4]),
        (MONDAY + 4 * WEEK + dt.timedelta(days=6), [5, 6, 7, 8]),  # a Sunday
        (MONDAY + 8 * WEEK, [9, 10]),
        (MONDAY + 40 * WEEK, [7, 8, 9, 10]),  # over
    ],
)
def test_it_opens_where_the_plan_stands(plan, today, weeks):
    page = plan_weeks(plan, today, None)
    assert shown(page) == weeks
    assert page.now is None
    assert [week.is_now for week in page.weeks].count(True) == (MONDAY <= today < MONDAY + WEEKS * WEEK)


def test_every_week_can_be_reached_from_the_one_that_runs(plan):
    today = MONDAY + 5 * WEEK
    page, seen = plan_weeks(plan, today, None), set()
    while page.earlier:
        seen |= set(shown(page))
        page = plan_weeks(plan, today, page.earlier)
    assert page.now == today
    while True:
        seen |= set(shown(page))
        if page.later is None:
            break
        page = plan_weeks(plan, today, page.later)
    assert seen == set(range(1, WEEKS + 1))


@pytest.mark.parametrize("wanted", [dt.date.min, dt.date.max, MONDAY - 3 * WEEK, MONDAY + 50 * WEEK])
def test_a_week_outside_the_plan_shows_its_nearest_end(plan, wanted):
    assert shown(plan_weeks(plan, MONDAY, wanted)) in ([1, 2, 3, 4], [10])


def test_coach_and_client_see_this_week_first(client, world, program):
    today = world.client.user.today()
    plan = assign(world, program, today - dt.timedelta(days=today.weekday()) - 5 * WEEK)
    address = reverse("assignment-detail", args=[plan.pk])
    for user in (world.coach, world.client.user):
        client.force_login(user)
        text = client.get(address).text
        assert text.count("this week") == 1
        assert text.index("this week") < text.index('class="date"')
        assert "Earlier weeks" in text
        assert "Later weeks" in text
        assert "this week" not in client.get(address, {"from": plan.starts_on.isoformat()}).text
        assert client.get(address, {"from": "soon"}).text.count("this week") == 1


def test_the_page_asks_as_often_for_a_long_plan_as_for_a_short_one(client, world, plan, django_assert_num_queries):
    client.force_login(world.coach)
    address = reverse("assignment-detail", args=[plan.pk])
    client.get(address)
    with django_assert_num_queries(12) as long:
        client.get(address)
    plan.sessions.exclude(date=MONDAY).delete()
    with django_assert_num_queries(len(long)):
        client.get(address)
