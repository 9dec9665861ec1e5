"""Which day it is where: held to the time zone database for any zone and moment."""

import datetime as dt
import zoneinfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from accounts.models import Engagement, Practice, User
from accounts.zones import every_zone, zones_before
from coaching.letters.due import HOUR, due_week
from coaching.recompute.calendar import WEEK, as_of, last_day, week_of

ZONES = ["Pacific/Auckland", "America/Los_Angeles", "Asia/Kolkata", "Pacific/Kiritimati", "Africa/Casablanca"]
zones = st.sampled_from([*ZONES, *every_zone()])
since_2020 = st.integers(0, 17 * 366 * 24 * 3600).map(lambda s: dt.timedelta(seconds=s))
moments = since_2020.map(lambda past: dt.datetime(2020, 1, 1, tzinfo=dt.UTC) + past)


@settings(deadline=None)  # the first question of a process reads every zone's file
@given(zones, moments, st.integers(-2, 2))
def test_a_zone_is_before_a_day_until_its_own_midnight(zone, now, days):
    day = now.date() + dt.timedelta(days=days)
    there = now.astimezone(zoneinfo.ZoneInfo(zone)).date()
    assert (zone in zones_before(day, now)) is (there < day)


@given(zones, moments)
def test_person_and_practice_of_a_zone_have_the_same_day(zone, now):
    there = now.astimezone(zoneinfo.ZoneInfo(zone)).date()
    assert User(time_zone=zone).day_of(now) == Practice(time_zone=zone).day_of(now) == there


@given(zones, moments)
def test_a_letter_is_about_the_week_that_has_ended_where_the_person_is(zone, now):
    there = now.astimezone(zoneinfo.ZoneInfo(zone))
    morning = dt.datetime.combine(week_of(there.date()), dt.time(HOUR))
    waiting = morning <= there.replace(tzinfo=None) < morning + dt.timedelta(days=2)
    week = due_week(User(time_zone=zone), now)
    assert week == (week_of(there.date()) - WEEK if waiting else None)
    # Its row then is final: no set of that week can come any more.
    assert week is None or as_of(week, there.date()) == week + WEEK


@given(zones, st.dates(dt.date(2020, 1, 6), dt.date(2036, 12, 28)).map(week_of))
def test_a_sweep_each_quarter_of_an_hour_meets_the_hour_of_every_week(zone, monday):
    person = User(time_zone=zone)
    first = dt.datetime.combine(monday, dt.time(HOUR), zoneinfo.ZoneInfo(zone)).astimezone(dt.UTC)
    swept = [due_week(person, first + dt.timedelta(minutes=15 * n - 60)) for n in range(8)]
    assert swept == [None] * 4 + [monday - WEEK] * 4


@given(zones, moments, st.integers(0, 3))
def test_a_running_week_knows_the_persons_days_up_to_today(zone, now, weeks_ago):
    today = User(time_zone=zone).day_of(now)
    monday = week_of(today) - WEEK * weeks_ago
    assert monday <= last_day(monday, today) <= min(today, monday + dt.timedelta(days=6))
    assert as_of(monday, today) == (today if weeks_ago == 0 else monday + WEEK)


@pytest.mark.parametrize(("first", "last", "runs"), [(0, None, True), (0, 0, True), (1, None, False), (-9, -1, False)])
def test_an_engagement_runs_on_its_first_and_last_day(first, last, runs):
    day = dt.date(2027, 1, 31)
    row = Engagement(
        started_on=day + dt.timedelta(days=first), ended_on=None if last is None else day + dt.timedelta(days=last)
    )
    assert row.runs_on(day) is runs
