"""The calendar address: it opens for its token alone, and an outside reader finds each session where it lies."""

import datetime as dt
import zoneinfo

import icalendar
import pytest
from django.test import Client as Browser
from django.urls import reverse
from django.utils import timezone

from logbook.calendar.write import calendar_of
from logbook.models import CalendarFeed
from logbook.services.calendar import calendar_open
from tests.logbook.factories import make_planned

pytestmark = pytest.mark.django_db
NOW = dt.datetime(2024, 10, 20, 12, 0, tzinfo=dt.UTC)


@pytest.fixture
def feed(gym):
    """Three sessions around the night of 27 October 2024, when clocks go back in Berlin."""
    gym.client.user.time_zone = "Europe/Berlin"
    gym.client.user.save()
    for day in (26, 27, 28):
        make_planned(gym.client, dt.date(2024, 10, day), {"exercise": gym.curl, "pair": "A1"}, {"exercise": gym.row})
    return calendar_open(client=gym.client, starts_at=dt.time(18, 30))


def read(feed, now=NOW):
    return icalendar.Calendar.from_ical(calendar_of(feed, now=now, address="https://gym.example"))


def test_each_event_parses_and_lies_in_the_clients_zone_across_the_clock_change(feed):
    calendar = read(feed)
    events = calendar.walk("VEVENT")
    hours = [event["dtstart"].dt.strftime("%d %H:%M") for event in events]
    assert hours == ["26 18:30", "27 18:30", "28 18:30"]
    offsets = [event["dtstart"].dt.utcoffset() for event in events]
    assert offsets == [dt.timedelta(hours=2), dt.timedelta(hours=1), dt.timedelta(hours=1)]
    assert {event["dtstart"].params["tzid"] for event in events} == {"Europe/Berlin"}
    # The rules go along, and say the same as the time zone database.
    [zone] = calendar.walk("VTIMEZONE")
    rules = zone.to_tz(lookup_tzid=False)
    berlin = zoneinfo.ZoneInfo("Europe/Berlin")
    for day in (26, 27, 28):
        there = dt.datetime(2024, 10, day, 18, 30, tzinfo=berlin)
        assert there.replace(tzinfo=rules).utcoffset() == there.utcoffset()


def test_an_event_says_what_is_to_be_done_and_where(feed):
    event = read(feed).walk("VEVENT")[0]
    assert event["summary"] == "Day one"
    assert "A1 Curl: 3 × 8–12 @ 1–2 RIR" in event["description"]
    assert event["url"].startswith("https://gym.example/train/planned/")


def test_a_session_takes_its_estimated_minutes_and_a_quarter_of_an_hour_at_least(gym, feed):
    first, second, _ = gym.client.planned_sessions.order_by("date")
    first.slots.all().delete()
    second.slots.update(sets=6, rest_s=180)
    lengths = [event["duration"].dt for event in read(feed).walk("VEVENT")]
    assert lengths[0] == dt.timedelta(minutes=15)
    assert lengths[1] > dt.timedelta(minutes=15)


def test_without_a_time_of_day_a_session_fills_no_hours(feed):
    feed.starts_at = None
    event = read(feed).walk("VEVENT")[0]
    assert event["dtstart"].dt == dt.date(2024, 10, 26)
    assert event["dtend"].dt == dt.date(2024, 10, 27)
    assert event["transp"] == "TRANSPARENT"


def test_a_moved_session_keeps_its_identity_and_a_cancelled_one_is_gone(gym, feed):
    before = [event["uid"] for event in read(feed).walk("VEVENT")]
    first, second, _ = gym.client.planned_sessions.order_by("date")
    first.date = dt.date(2024, 10, 30)
    first.save()
    second.cancelled_at = timezone.now()
    second.save()
    after = {event["uid"]: event["dtstart"].dt.day for event in read(feed).walk("VEVENT")}
    assert after == {before[0]: 30, before[2]: 28}


def test_a_deload_and_a_done_session_say_so(gym, feed):
    first, second, _ = gym.client.planned_sessions.order_by("date")
    first.is_deload = True
    first.save()
    session = gym.start(dt.datetime(2024, 10, 27, 17, tzinfo=dt.UTC), planned=second.pk)
    gym.log(session, at=dt.datetime(2024, 10, 27, 17, 5, tzinfo=dt.UTC))
    gym.apply(
        "session.finish", dt.datetime(2024, 10, 27, 18, tzinfo=dt.UTC), session=session, minutes=60, session_rpe=7
    )
    assert [event["summary"] for event in read(feed).walk("VEVENT")] == [
        "Day one (deload)",
        "Day one – done",
        "Day one",
    ]


def test_long_names_and_line_breaks_are_read_back_as_they_were(gym, feed):
    planned = gym.client.planned_sessions.order_by("date").first()
    planned.day_name = "Day; with, commas\\ and „Äußerst“ long " + "name " * 8
    planned.save()
    assert read(feed).walk("VEVENT")[0]["summary"] == planned.day_name


@pytest.fixture
def address(feed):
    return reverse("calendar-feed", args=[feed.token])


def test_the_address_opens_without_signing_in_and_a_guessed_one_does_not(feed, address):
    response = Browser().get(address)
    assert response.status_code == 200
    assert response["Content-Type"] == "text/calendar; charset=utf-8"
    assert "no-store" in response["Cache-Control"]
    secret, _, signature = feed.token.partition("~")
    for guess in ("x", f"{secret}~{signature[:-1]}", f"{secret[::-1]}~{signature}", secret):
        assert Browser().get(reverse("calendar-feed", args=[guess])).status_code == 404


def test_a_renewed_or_closed_address_answers_nobody(feed, address, phone):
    phone.post(reverse("calendar"), {"renew": "1"})
    assert Browser().get(address).status_code == 404
    new = reverse("calendar-feed", args=[CalendarFeed.objects.get().token])
    assert Browser().get(new).status_code == 200
    phone.post(reverse("calendar"), {"close": "1"})
    assert Browser().get(new).status_code == 404


def test_a_closed_account_closes_its_calendar(gym, address):
    gym.client.user.is_active = False
    gym.client.user.save()
    assert Browser().get(address).status_code == 404


def test_client_makes_an_address_and_changes_the_time(gym, phone):
    page = reverse("calendar")
    assert phone.post(page, {"starts_at": "25:00"}).status_code == 422
    assert not CalendarFeed.objects.exists()
    phone.post(page, {"starts_at": "07:15"})
    secret = CalendarFeed.objects.get().secret
    phone.post(page, {"starts_at": ""})
    feed = CalendarFeed.objects.get()
    assert (feed.secret, feed.starts_at) == (secret, None)
    assert f"http://testserver/calendar/{feed.token}.ics" in phone.get(page).text


def test_the_feed_costs_the_same_for_few_sessions_and_for_many(gym, feed, address, django_assert_num_queries):
    with django_assert_num_queries(3):  # feed with its client; sessions; slots with their exercises
        calendar_of(CalendarFeed.of_token(feed.token), now=NOW, address="x")
    for day in range(1, 25):
        make_planned(gym.client, dt.date(2024, 11, day), {"exercise": gym.curl})
    with django_assert_num_queries(3):
        calendar_of(CalendarFeed.of_token(feed.token), now=NOW, address="x")
