"""What fitting knows of a client, counted in the client's own days."""

import datetime as dt
import zoneinfo

import pytest

from coaching.fitting.facts import load_facts
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("zone", ["America/Los_Angeles", "UTC", "Pacific/Kiritimati"])
@pytest.mark.parametrize("hour", [1, 22])
def test_days_since_an_exercise_are_those_of_the_clients_calendar(world, exercises, monkeypatch, zone, hour):
    """At one and at ten in the evening the server's day is another one on one side of the world or the other."""
    user, day = world.client.user, dt.date(2027, 3, 1)
    user.time_zone = zone
    user.save()
    now = dt.datetime.combine(day, dt.time(hour), zoneinfo.ZoneInfo(zone))
    monkeypatch.setattr("django.utils.timezone.now", lambda: now.astimezone(dt.UTC))
    for ago, slug in ((0, "curl"), (3, "squat")):
        started = (now - dt.timedelta(days=ago)).astimezone(dt.UTC)
        make.log_set(make.begin(world.client, day - dt.timedelta(days=ago), started_at=started), exercises[slug], 1)
    done = load_facts([world.client], day)[world.client.pk].done
    assert done == {exercises["curl"].pk: 0, exercises["squat"].pk: 3}
