"""Whether the parts answer, without a secret in the answer."""

import datetime as dt

import pytest
from django.db import OperationalError
from django.urls import reverse
from django.utils import timezone
from redis import ConnectionError

from coaching import listening
from coaching.views import health
from logbook.models import RecomputeRequest
from programs.models import DraftRun
from tests.coaching import factories as make
from tests.programs.draft_helpers import start
from tests.programs.factories import make_library

pytestmark = pytest.mark.django_db


def ask(client):
    return client.get(reverse("health"))


def test_nothing_waits(client, settings):
    settings.CELERY_BROKER_URL = None
    response = ask(client)
    assert response.status_code == 200
    assert response.json() == {
        "database": "ok",
        "queue": "in process",
        "workers": None,
        "oldest_request_s": None,
        "oldest_draft_s": None,
    }


def test_the_oldest_waiting_request_is_told_in_seconds(client, world):
    make.request(world.client, make.monday())
    RecomputeRequest.objects.update(created_at=timezone.now() - dt.timedelta(seconds=90))
    make.request(world.client, make.monday())
    assert 90 <= ask(client).json()["oldest_request_s"] <= 95


def test_a_database_that_is_down_answers_503_and_says_no_more(client, monkeypatch):
    def down():
        raise OperationalError("password for sinewright@db:5432 was wrong")

    monkeypatch.setattr(health, "oldest_request", down)
    response = ask(client)
    assert response.status_code == 503
    assert response.json()["database"] == "down"
    assert "5432" not in response.content.decode()


def test_a_lost_broker_is_told_and_the_site_stays_up(client, settings):
    settings.CELERY_BROKER_URL = "redis://127.0.0.1:1/0"
    response = ask(client)
    assert (response.status_code, response.json()["queue"]) == (200, "down")


@pytest.fixture
def broker(settings, monkeypatch):
    """A broker that answers."""
    settings.CELERY_BROKER_URL = "redis://127.0.0.1:1/0"
    monkeypatch.setattr(health, "ping", lambda url: None)


def test_a_queue_that_no_worker_listens_to_is_told(client, broker):
    assert ask(client).json()["workers"] == {"celery": "none", "long": "none"}
    listening.say(["celery"])
    response = ask(client)
    assert (response.status_code, response.json()["workers"]) == (200, {"celery": "ok", "long": "none"})


def test_workers_that_cannot_be_asked_for_are_not_made_up(client, broker, monkeypatch):
    def away():
        raise ConnectionError("redis:6379")

    monkeypatch.setattr(health, "listened_to", away)
    response = ask(client)
    assert (response.status_code, response.json()["workers"]) == (200, None)
    assert "6379" not in response.content.decode()


def test_the_oldest_draft_that_no_worker_has_is_told_in_seconds(client, world):
    make_library()
    old, new = start(world), start(world)
    DraftRun.objects.filter(pk=old.pk).update(created_at=timezone.now() - dt.timedelta(seconds=90))
    assert 90 <= ask(client).json()["oldest_draft_s"] <= 95
    DraftRun.objects.filter(pk=old.pk).update(state=DraftRun.State.RUNNING)
    assert ask(client).json()["oldest_draft_s"] <= 5
    DraftRun.objects.filter(pk=new.pk).update(state=DraftRun.State.DONE)
    assert ask(client).json()["oldest_draft_s"] is None
