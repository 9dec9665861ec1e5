import datetime as dt

import pytest
from django.utils import timezone

from tests.coaching.factories import make_catalogue


@pytest.fixture
def exercises(db):
    """The small catalogue, by slug."""
    return make_catalogue()


@pytest.fixture
def on_monday(monkeypatch):
    """It is this week's Monday, whatever day the tests run on: what is asked depends on the day of the week."""
    now = timezone.now()
    then = now - dt.timedelta(days=now.weekday())
    monkeypatch.setattr("django.utils.timezone.now", lambda: then)
