"""A week belongs to the client's zone: what is logged around midnight, what the phone shows, what is counted."""

import datetime as dt
import zoneinfo

import icalendar
import pytest
from django.core import mail

from coaching.letters.send import send_due
from coaching.models import WeekSummary
from coaching.recompute import run
from coaching.recompute.calendar import WEEK, week_of
from logbook.calendar.write import calendar_of
from logbook.models import Session
from logbook.services.calendar import calendar_open
from tests.logbook.conftest import signed_in
from tests.logbook.factories import make_planned

pytestmark = pytest.mark.django_db

# Each with a Sunday night on which, where there is such a thing, clocks have changed: Auckland and Los Angeles in both
# directions, Casablanca at the end of Ramadan; and a year's end, and a February's last day.
NIGHTS = [
    ("Pacific/Auckland", dt.date(2026, 9, 27)),
    ("Pacific/Auckland", dt.date(2027, 4, 4)),
    ("America/Los_Angeles", dt.date(2026, 11, 1)),
    ("America/Los_Angeles", dt.date(2027, 3, 14)),
    ("Asia/Kolkata", dt.date(2027, 2, 28)),
    ("Pacific/Kiritimati", dt.date(2028, 12, 31)),
    ("Africa/Casablanca", dt.date(2027, 3, 14)),
    ("Europe/Berlin", dt.date(2027, 3, 28)),
]


@pytest.fixture(params=NIGHTS, ids=lambda one: f"{one[0]} {one[1]}")
def night(request, gym):
    """A client of the zone with a session planned on the Sunday and one on the Monday; the moments of that night."""
    name, sunday = request.param
    assert sunday.weekday() == 6
    gym.client.user.time_zone = name
    gym.client.user.save()
    monday = sunday + dt.timedelta(days=1)
    zone = zoneinfo.ZoneInfo(name)
    planned = [make_planned(gym.client, day, {"exercise": gym.curl}, day_name=f"{day:%A}") for day in (sunday, monday)]

    def at(day, *clock):
        return dt.datetime.combine(day, dt.time(*clock), zone).astimezone(dt.UTC)

    gym.client.created_at = at(sunday - 3 * WEEK, 12)
    gym.client.save()
    return gym, sunday, monday, planned, at


def train(gym, planned, moment):
    session = gym.start(moment, now=moment, planned=planned.pk)
    then = moment + dt.timedelta(minutes=4)
    gym.log(session, at=then, now=then, slot=planned.slots.get().pk)
    gym.apply("session.finish", then, now=then, session=session, minutes=10, session_rpe=6)
    return session


def test_a_session_counts_for_the_week_in_which_it_began_there(night):
    gym, sunday, monday, (last, first), at = night
    train(gym, last, at(sunday, 23, 40))
    train(gym, first, at(monday, 0, 20))
    assert list(Session.objects.order_by("started_at").values_list("date", flat=True)) == [sunday, monday]
    run.work_off(gym.client.pk, now=at(monday, 0, 40))
    found = {row.week: row for row in WeekSummary.objects.filter(client=gym.client)}
    assert max(found) == monday
    for week in (week_of(sunday), monday):
        kept = found[week].compliance
        assert (kept["sessions_planned"], kept["sessions_done"], kept["sets_done"]) == (1, 1, 1)
    assert found[week_of(sunday)].as_of == monday, "the week that ended is final"


def test_a_set_after_midnight_stays_with_its_session(night):
    gym, sunday, monday, (last, _), at = night
    session = train(gym, last, at(sunday, 23, 55))
    gym.log(session, at=at(monday, 0, 15), now=at(monday, 0, 15), slot=last.slots.get().pk, number=2)
    run.work_off(gym.client.pk, now=at(monday, 0, 40))
    week = WeekSummary.objects.get(client=gym.client, week=week_of(sunday))
    assert week.compliance["sets_done"] == 2


@pytest.mark.parametrize("clock", [(0, 1), (12, 0), (23, 59)])
def test_the_phone_shows_its_own_day_and_week(night, monkeypatch, clock):
    gym, sunday, monday, planned, at = night
    for day, session in zip((sunday, monday), planned, strict=True):
        monkeypatch.setattr("django.utils.timezone.now", lambda day=day: at(day, *clock))
        phone = signed_in(gym.client.user)
        shown = phone.get("/train/").context["today"]
        assert shown.date == day
        assert [card["planned"] for card in shown.sessions] == [session]
        plan = phone.get("/train/plan/")
        assert plan.context["monday"] == week_of(day)
        assert [card["planned"] for card in plan.context["cards"]] == [session]
        assert phone.get("/train/phone/pages/").json()["from"] == day.isoformat()


def test_the_letter_goes_on_monday_morning_there_and_tells_of_all_its_week(night):
    gym, sunday, monday, (last, _), at = night
    gym.client.engagements.update(started_on=sunday - 3 * WEEK)
    gym.client.practice.memberships.update(started_on=sunday - 9 * WEEK)
    train(gym, last, at(sunday, 23, 40))
    sent = []
    for clock in ((5, 59), (6, 1), (6, 16)):
        now = at(monday, *clock)
        run.work_off(gym.client.pk, now=now)
        mail.outbox.clear()
        send_due(now)
        sent.append([letter for letter in mail.outbox if letter.to == [gym.client.user.email]])
    assert [len(letters) for letters in sent] == [0, 1, 0]
    assert "Sessions: 1 of 1" in sent[1][0].body
    assert f"Monday {monday.day} " in sent[1][0].body, "and of what is planned in the new one"


def test_the_calendar_has_each_session_on_its_day_and_hour_by_its_own_rules(night):
    gym, sunday, monday, _, at = night
    feed = calendar_open(client=gym.client, starts_at=dt.time(18, 30))
    calendar = icalendar.Calendar.from_ical(calendar_of(feed, now=at(sunday, 12), address="https://gym.example"))
    [rules] = [zone.to_tz(lookup_tzid=False) for zone in calendar.walk("VTIMEZONE")]
    for event, day in zip(calendar.walk("VEVENT"), (sunday, monday), strict=True):
        there = event["dtstart"].dt
        assert there.replace(tzinfo=None) == dt.datetime.combine(day, dt.time(18, 30))
        assert there == at(day, 18, 30)
        assert there.replace(tzinfo=rules).utcoffset() == there.utcoffset()
