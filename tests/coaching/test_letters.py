"""The weekly letter: to whom, when, what it says, and how it stops. Read back with Python's own e-mail parser."""

import datetime as dt
import email
import email.policy
import re
import zoneinfo

import pytest
from django.core import mail
from django.core.mail.backends.locmem import EmailBackend
from django.db import connection
from django.test import Client as Browser
from django.test.utils import CaptureQueriesContext

from accounts.models import User
from coaching.letters.due import due_week
from coaching.letters.send import send_due
from coaching.models import WeeklyLetter, WeekSummary
from coaching.recompute import run
from coaching.recompute.calendar import WEEK
from tests.coaching import factories as make
from tests.coaching.once import once
from tests.conftest import make_client

pytestmark = pytest.mark.django_db


def train(world, exercises):
    """Give `coach` a trained client who reported pain."""
    make.train(world.client, world.coach, exercises, weeks=4, seed=3)
    make.report_pain(world.client.sessions.order_by("-date").first(), exercises["curl"], 7)
    run.work_off(world.client.pk)


made, copied, world, exercises = once(train)


@pytest.fixture
def week(world):
    """This week's Monday has come."""
    return make.monday(0)


def at(monday, hour, zone="UTC", days=0):
    there = dt.datetime.combine(monday + dt.timedelta(days=days), dt.time(hour), tzinfo=zoneinfo.ZoneInfo(zone))
    return there.astimezone(dt.UTC)


def parsed(index=0):
    raw = mail.outbox[index].message().as_bytes()
    return email.message_from_bytes(raw, policy=email.policy.default)


def to(address):
    return [letter for letter in mail.outbox if letter.to == [address]]


@pytest.mark.parametrize(
    ("zone", "hour", "days", "due"),
    [
        ("UTC", 5, 0, False),
        ("UTC", 6, 0, True),
        ("UTC", 5, 2, True),
        ("UTC", 6, 2, False),
        ("Pacific/Auckland", 6, 0, True),
        ("America/Los_Angeles", 5, 0, False),
        ("America/Los_Angeles", 6, 0, True),
    ],
)
def test_a_letter_is_due_on_monday_morning_where_the_person_is(zone, hour, days, due):
    monday = dt.date(2024, 5, 13)
    user = User(time_zone=zone)
    assert due_week(user, at(monday, hour, zone, days)) == (monday - WEEK if due else None)


def test_client_and_coach_get_one_letter_each_and_no_second(world, week):
    assert send_due(at(week, 7)) == 2
    assert send_due(at(week, 8)) == 0
    assert len(to(world.client.user.email)) == len(to(world.coach.email)) == 1
    assert to(world.other_client.user.email) == []  # nothing was planned or done


def test_a_letter_parses_and_says_the_week_in_both_parts(world, week):
    send_due(at(week, 7))
    letter = parsed()
    summary = WeekSummary.objects.get(client=world.client, week=week - WEEK)
    done, planned = summary.compliance["sessions_done"], summary.compliance["sessions_planned"]
    assert done
    for kind in ("plain", "html"):
        assert f"Sessions: {done} of {planned}" in letter.get_body((kind,)).get_content()
    assert letter.defects == []
    assert letter["to"] == world.client.user.email
    assert re.search(r"https?://\S+/train/", letter.get_body(("plain",)).get_content())


def test_a_coachs_letter_names_clients_and_says_nothing_about_their_health(world, week):
    send_due(at(week, 7))
    [letter] = to(world.coach.email)
    whole = letter.body + letter.alternatives[0][0]
    assert "Clemens" in whole
    for word in ("pain", "elbow", "check-in", "fatigue", "sore"):
        assert word not in whole.lower()


def test_a_week_that_is_not_computed_to_its_end_waits(world, week):
    WeekSummary.objects.filter(client=world.client, week=week - WEEK).update(as_of=week - dt.timedelta(days=2))
    send_due(at(week, 7))
    assert to(world.client.user.email) == []
    WeekSummary.objects.filter(client=world.client, week=week - WEEK).update(as_of=week)
    send_due(at(week, 9))
    assert len(to(world.client.user.email)) == 1


def test_whoever_turned_it_off_gets_none(world, week):
    User.objects.filter(pk__in=[world.client.user.pk, world.coach.pk]).update(weekly_letter=False)
    assert send_due(at(week, 7)) == 0


def test_a_client_whom_nobody_trains_gets_none(world, week):
    world.client.engagements.update(ended_on=week - dt.timedelta(days=1))
    send_due(at(week, 7))
    assert to(world.client.user.email) == to(world.coach.email) == []


def test_a_letter_that_the_server_refuses_is_tried_again(world, week, monkeypatch):
    real = EmailBackend.send_messages

    def refuse(self, messages):
        raise ConnectionRefusedError

    monkeypatch.setattr(EmailBackend, "send_messages", refuse)
    assert send_due(at(week, 7)) == 0
    assert not WeeklyLetter.objects.exists()
    monkeypatch.setattr(EmailBackend, "send_messages", real)
    assert send_due(at(week, 8)) == 2


def test_the_letter_stops_itself_by_one_click_without_signing_in(world, week):
    send_due(at(week, 7))
    letter = parsed()
    assert letter["List-Unsubscribe-Post"] == "List-Unsubscribe=One-Click"
    path = re.sub(r"^https?://[^/]+", "", letter["List-Unsubscribe"].strip(" <>"))
    assert Browser().get(path).status_code == 200
    assert User.objects.get(pk=world.client.user.pk).weekly_letter, "following a link changes nothing"
    strict = Browser(enforce_csrf_checks=True)
    assert strict.post(path, {"List-Unsubscribe": "One-Click"}).status_code == 200
    assert not User.objects.get(pk=world.client.user.pk).weekly_letter
    assert Browser().post(path[:-3] + "xx/").status_code == 404


def test_looking_for_letters_costs_the_same_for_few_clients_as_for_many(world, week, django_assert_num_queries):
    send_due(at(week, 7))
    with CaptureQueriesContext(connection) as few:
        send_due(at(week, 8))
    for number in range(5):
        make_client(world.practice, f"more{number}", world.coach_membership)
    with django_assert_num_queries(len(few)):
        send_due(at(week, 9))


def test_whose_training_ended_yesterday_where_the_practice_is_gets_none(world, week):
    """Monday morning in Auckland is still Sunday in UTC: the practice's own day decides."""
    world.practice.time_zone = world.client.user.time_zone = "Pacific/Auckland"
    world.practice.save()
    world.client.user.save()
    world.client.engagements.update(ended_on=week - dt.timedelta(days=1))
    morning = at(week, 7, "Pacific/Auckland")
    assert morning.date() < week
    send_due(morning)
    assert to(world.client.user.email) == []
    world.client.engagements.update(ended_on=week)
    send_due(morning)
    assert len(to(world.client.user.email)) == 1


def test_a_coachs_letter_says_for_whom_the_week_still_runs(world, week):
    said = "1 client's week was not over"
    send_due(at(week, 7))
    assert said not in to(world.coach.email)[0].body
    mail.outbox.clear()
    WeeklyLetter.objects.all().delete()
    WeekSummary.objects.filter(client=world.client, week=week - WEEK).update(as_of=week - dt.timedelta(days=1))
    send_due(at(week, 7))
    [letter] = to(world.coach.email)
    assert said in letter.body
    assert said.replace("'", "&#x27;") in letter.alternatives[0][0] or said in letter.alternatives[0][0]
