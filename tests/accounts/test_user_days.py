"""A day, and so a week, belongs to the person's own zone."""

import datetime as dt

import pytest

from accounts.models import User

LATE = dt.datetime(2026, 3, 1, 23, 30, tzinfo=dt.UTC)


@pytest.mark.parametrize(
    ("zone", "day"), [("UTC", 1), ("Europe/Berlin", 2), ("Pacific/Auckland", 2), ("America/Chicago", 1)]
)
def test_a_moment_falls_on_the_day_of_the_persons_zone(zone, day, monkeypatch):
    person = User(time_zone=zone)
    assert person.day_of(LATE) == dt.date(2026, 3, day)
    monkeypatch.setattr("django.utils.timezone.now", lambda: LATE)
    assert person.today() == dt.date(2026, 3, day)
