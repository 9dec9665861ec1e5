"""From a queued table of past training to a worker: nothing here may break the request that asked, or lose it."""

import datetime as dt
import subprocess

import pytest
from django.core.management import call_command
from django.utils import timezone

from coaching import long_dispatch, processes, sweep, tasks
from logbook.models import PastRun, SetLog
from logbook.past.reading import HowToRead
from logbook.services.past_run import past_start
from tests.logbook.factories import make_exercise, make_groups
from tests.logbook.past_fixture import sets_table

pytestmark = pytest.mark.django_db


def start(world):
    make_groups()
    make_exercise("curl", "barbell")
    table = sets_table("Date | Exercise | Load | Reps", *["2024-01-08 | Curl | 20 | 8"] * 3)
    how = HowToRead(unit="kg", today=dt.date(2024, 5, 15))
    return past_start(client=world.client, by=world.coach, table=table, how=how, file_name="old_log.csv")


@pytest.fixture
def run(world):
    return start(world)


def state(run):
    run.refresh_from_db()
    return run.state


def test_with_a_broker_the_task_is_queued(world, settings, monkeypatch, django_capture_on_commit_callbacks):
    settings.CELERY_BROKER_URL = "redis://127.0.0.1:1/0"
    queued = []
    monkeypatch.setattr(long_dispatch, "ping", lambda url: None)
    monkeypatch.setattr(tasks.past_save, "apply_async", lambda args, **kwargs: queued.append(args))
    with django_capture_on_commit_callbacks(execute=True):
        made = start(world)
    assert queued == [(str(made.pk),)]
    tasks.past_save(*queued[0])
    tasks.past_save(*queued[0])
    assert (state(made), SetLog.objects.count()) == (PastRun.State.DONE, 3)


def test_a_lost_broker_leaves_it_to_the_sweep(run, settings):
    settings.CELERY_BROKER_URL = "redis://127.0.0.1:1/0"
    assert long_dispatch.PAST.dispatch(run.pk) is False
    assert state(run) == PastRun.State.QUEUED


def test_without_a_broker_it_gets_a_process_of_its_own(run, settings, monkeypatch):
    settings.CELERY_BROKER_URL = None
    settings.DRAFT_WORKER = "process"
    started = []

    class Process:
        def __init__(self, command, **kwargs):
            started.append(command)

    monkeypatch.setattr(subprocess, "Popen", Process)
    monkeypatch.setattr(processes, "_processes", [])
    assert long_dispatch.PAST.dispatch(run.pk) is True
    ((_, script, *arguments),) = started
    assert script.endswith("manage.py")
    call_command(*arguments)
    assert state(run) == PastRun.State.DONE


def test_the_sweep_finds_a_lost_table_and_what_follows_is_computed(run, settings, django_capture_on_commit_callbacks):
    settings.CELERY_BROKER_URL = None
    PastRun.objects.update(queued_at=timezone.now() - dt.timedelta(minutes=5))
    with django_capture_on_commit_callbacks(execute=True):
        assert sweep.sweep() >= 1
    assert (state(run), SetLog.objects.count()) == (PastRun.State.DONE, 3)
