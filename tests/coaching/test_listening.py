"""Two queues: what takes long holds no recompute up, and a worker says which of them it listens to."""

import logging
from types import SimpleNamespace

import pytest
from kombu import Queue

from coaching import listening
from coaching.celery import app
from coaching.listening import Listener, listened_to


@pytest.fixture
def clock(monkeypatch):
    at = SimpleNamespace(now=1000.0)
    monkeypatch.setattr(listening.time, "monotonic", lambda: at.now)
    return at


def consumer(*queues):
    return SimpleNamespace(task_consumer=SimpleNamespace(queues=[Queue(name) for name in queues]))


@pytest.mark.parametrize(
    ("task", "queue"),
    [
        ("recompute_client", "celery"),
        ("recompute_sweep", "celery"),
        ("draft_solve", "long"),
        ("past_save", "long"),
        ("weekly_letters", "long"),
    ],
)
def test_what_takes_long_waits_in_a_queue_of_its_own(task, queue):
    way = app.amqp.router.route({}, f"coaching.tasks.{task}", (), {})
    told = way.get("queue")
    assert (told.name if told else app.conf.task_default_queue) == queue


def test_a_worker_that_is_told_no_queue_listens_to_both():
    assert set(app.amqp.queues.consume_from) == {"celery", "long"}


def test_no_message_goes_into_both_queues():
    assert {queue.routing_key for queue in app.amqp.queues.values()} == {"celery", "long"}


def test_what_a_worker_listens_to_is_known_once_it_is_ready():
    assert listened_to() == {"celery": False, "long": False}
    Listener().on_ready(consumer("long"))
    assert listened_to() == {"celery": False, "long": True}


def test_a_worker_says_so_again_but_not_with_every_heartbeat(clock, monkeypatch):
    said = []
    monkeypatch.setattr(listening, "say", said.append)
    one = Listener()
    one.on_heartbeat()  # not ready: nothing to say yet
    one.on_ready(consumer("celery"))
    one.on_heartbeat()
    assert said == [["celery"]]
    clock.now += listening.SAY_EVERY_S
    one.on_heartbeat()
    assert said == [["celery"], ["celery"]]


def test_a_worker_whose_word_cannot_be_kept_goes_on(monkeypatch, caplog):
    monkeypatch.setattr(listening, "say", lambda queues: 1 / 0)
    with caplog.at_level(logging.WARNING):
        Listener().on_ready(consumer("celery"))
    assert "Could not say" in caplog.text
