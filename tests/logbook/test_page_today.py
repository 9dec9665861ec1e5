"""Today and the plan: what is next, what is unfinished, what was missed."""

import datetime as dt
import re
import uuid

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from logbook.models import Session
from logbook.services.sessions import session_id_for
from programs.services.assignment_end import assignment_end
from programs.services.assignment_move import assignment_pause
from tests.logbook.factories import make_exercise, make_planned


@pytest.fixture
def today():
    return timezone.now().date()


def text_of(response) -> str:
    """The page's words without tags, with single spaces."""
    body = response.content.decode().split('<main id="main"')[1].split("</main>")[0]
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", body))


def test_todays_session_is_shown_with_its_exercises_and_length(phone, gym, today):
    make_planned(gym.client, today, {"exercise": gym.curl, "pair": "A1"}, {"exercise": gym.row, "pair": "A2"})
    page = text_of(phone.get("/train/"))
    assert "Day one" in page
    assert "A1 Curl 3 × 8–12" in page
    assert re.search(r"about \d+ min", page)
    assert "Open the session" in page


def test_next_session_is_offered_when_today_has_none(phone, gym, today):
    make_planned(gym.client, today + dt.timedelta(days=2), {"exercise": gym.curl}, day_name="Day two")
    page = text_of(phone.get("/train/"))
    assert "Nothing is planned for today." in page
    assert "Day two" in page
    assert "Do it today" in page


def test_empty_plan_says_what_to_do(phone):
    page = text_of(phone.get("/train/"))
    assert "Ask your coach" in page
    assert "Begin an unplanned session" in page


def test_unfinished_session_is_resumed(phone, gym, today):
    planned = make_planned(gym.client, today, {"exercise": gym.curl})
    session = gym.start(timezone.now(), planned=planned.pk)
    response = phone.get("/train/")
    assert "not finished" in text_of(response)
    assert f'href="/train/session/{session}/"' in response.content.decode()
    assert "Open the session" not in text_of(response)


def test_finished_session_is_not_offered_again(phone, gym, today):
    planned = make_planned(gym.client, today, {"exercise": gym.curl})
    session = gym.start(timezone.now(), planned=planned.pk)
    gym.apply("session.finish", timezone.now(), session=session, session_rpe=6, minutes=40)
    page = text_of(phone.get("/train/"))
    assert "done" in page
    assert "Open the session" not in page


def test_missed_sessions_of_the_last_week_can_still_be_logged(phone, gym, today):
    missed = make_planned(gym.client, today - dt.timedelta(days=3), {"exercise": gym.curl}, day_name="Day three")
    make_planned(gym.client, today - dt.timedelta(days=8), {"exercise": gym.curl}, day_name="Day long ago")
    response = phone.get("/train/")
    assert f'href="/train/planned/{missed.pk}/"' in response.content.decode()
    assert "Day long ago" not in text_of(response)


def test_cautions_stand_before_the_first_session_and_not_after(phone, gym):
    assert "Very dark urine" in text_of(phone.get("/train/"))
    session = gym.start(timezone.now())
    gym.apply("session.finish", timezone.now(), session=session, session_rpe=6, minutes=40)
    assert "Very dark urine" not in text_of(phone.get("/train/"))


def test_check_in_is_asked_for_once_a_day(phone, gym):
    assert "Five questions" in text_of(phone.get("/train/"))
    gym.apply("checkin.record", timezone.now(), fatigue=4, sleep=4, soreness=4, stress=4, mood=4)
    assert "20 of 25" in text_of(phone.get("/train/"))


def test_today_is_the_clients_own_day(phone, gym, monkeypatch):
    gym.client.user.time_zone = "Pacific/Auckland"
    gym.client.user.save()
    evening = dt.datetime(2024, 5, 14, 13, 0, tzinfo=dt.UTC)
    monkeypatch.setattr("django.utils.timezone.now", lambda: evening)
    assert "Wed 15 May" in text_of(phone.get("/train/"))


def test_plan_shows_one_week_from_monday_to_sunday_with_states(phone, gym, today):
    monday = today - dt.timedelta(days=today.weekday() + 7)
    for days, name in ((0, "First day"), (6, "Last day"), (7, "Week later"), (-1, "Week before it")):
        make_planned(gym.client, monday + dt.timedelta(days=days), {"exercise": gym.curl}, day_name=name)
    page = text_of(phone.get(f"/train/plan/?week={(monday + dt.timedelta(days=2)).isoformat()}"))
    assert "First day" in page
    assert "Last day" in page
    assert "Week later" not in page
    assert "Week before it" not in page
    assert "not logged" in page
    assert "3 × 8–12 @ 1–2 RIR" in page


@pytest.mark.parametrize("week", ["", "yesterday", "0001-01-01", "9999-12-31", "2024-13-01"])
def test_week_that_cannot_be_shows_this_one(phone, week, today):
    response = phone.get("/train/plan/", {"week": week})
    assert response.status_code == 200
    assert response.context["this_week"] is True


def test_deload_is_named(phone, gym, today):
    make_planned(gym.client, today, {"exercise": gym.curl}, is_deload=True)
    assert "deload" in text_of(phone.get("/train/"))


@pytest.mark.parametrize("url", ["/train/", "/train/plan/"])
def test_cost_does_not_grow_with_the_plan(phone, gym, today, url, django_assert_num_queries):
    make_planned(gym.client, today, {"exercise": gym.curl})
    with CaptureQueriesContext(connection) as few:
        phone.get(url)
    for n in range(5):
        exercise = make_exercise(f"press-{n}", "dumbbell")
        planned = make_planned(gym.client, today, {"exercise": exercise}, {"exercise": gym.row})
        if n % 2:
            gym.start(timezone.now(), session=session_id_for(planned.pk), planned=planned.pk)
    with django_assert_num_queries(len(few)):
        phone.get(url)


def test_finished_session_of_another_day_or_of_no_plan_stands_under_today(phone, gym, today):
    planned = make_planned(gym.client, today + dt.timedelta(days=2), {"exercise": gym.curl}, day_name="Day two")
    now = timezone.now()
    for row in (planned, None):
        Session.objects.create(
            id=uuid.uuid4(), client=gym.client, planned=row, date=today, started_at=now, finished_at=now
        )
    page = text_of(phone.get("/train/"))
    assert page.count("See what you did") == 2
    assert re.search(r"Day two\W+done", page)
    assert re.search(r"Unplanned session\W+done", page)
    assert "Nothing is planned for today or the next two weeks." in page


def test_yesterdays_end_does_not_stand_under_today(phone, gym, today):
    then = timezone.now() - dt.timedelta(days=1)
    Session.objects.create(
        id=uuid.uuid4(), client=gym.client, date=today - dt.timedelta(days=1), started_at=then, finished_at=then
    )
    assert "See what you did" not in text_of(phone.get("/train/"))


def test_plan_that_stands_still_says_so(phone, gym, today):
    planned = make_planned(gym.client, today + dt.timedelta(days=3), {"exercise": gym.curl})
    plan = planned.assignment
    assert "paused" not in text_of(phone.get("/train/"))
    assignment_pause(assignment=plan, since=today)
    assert f"Your plan “{plan.name}” is paused since" in text_of(phone.get("/train/"))


def test_plan_whose_last_day_is_to_come_has_not_ended(phone, gym, today):
    plan = make_planned(gym.client, today - dt.timedelta(days=3), {"exercise": gym.curl}).assignment
    make_planned(gym.client, today + dt.timedelta(days=20), {"exercise": gym.curl})
    assignment_end(assignment=plan, last_day=today + dt.timedelta(days=21))
    page = text_of(phone.get("/train/"))
    assert "ended on" not in page
    assert "Nothing is planned for today or the next two weeks." in page


def test_plan_that_ended_says_when_and_whom_to_ask(phone, gym, today):
    plan = make_planned(gym.client, today - dt.timedelta(days=30), {"exercise": gym.curl}).assignment
    assignment_end(assignment=plan, last_day=today - dt.timedelta(days=20))
    page = text_of(phone.get("/train/"))
    assert f"Your plan “{plan.name}” ended on" in page
    assert "Ask your coach what comes next." in page
