"""From a queued draft to a worker: nothing here may break the request that asked, or lose the draft."""

import datetime as dt
import subprocess

import pytest
from django.core.management import call_command
from django.utils import timezone

from coaching import long_dispatch, processes, sweep, tasks
from programs.models import DraftRun
from tests.programs.draft_helpers import start
from tests.programs.factories import make_library

pytestmark = pytest.mark.django_db


@pytest.fixture
def run(world):
    make_library()
    return start(world)


def state(run):
    run.refresh_from_db()
    return run.state


def test_with_a_broker_the_task_is_queued(world, settings, monkeypatch, django_capture_on_commit_callbacks):
    settings.CELERY_BROKER_URL = "redis://127.0.0.1:1/0"
    queued = []
    monkeypatch.setattr(long_dispatch, "ping", lambda url: None)
    monkeypatch.setattr(tasks.draft_solve, "apply_async", lambda args, **kwargs: queued.append(args))
    make_library()
    with django_capture_on_commit_callbacks(execute=True):
        made = start(world)
    assert queued == [(made.pk,)]
    assert state(made) == DraftRun.State.QUEUED


def test_a_lost_broker_leaves_it_to_the_sweep(run, settings):
    settings.CELERY_BROKER_URL = "redis://127.0.0.1:1/0"
    assert long_dispatch.DRAFT.dispatch(run.pk) is False
    assert state(run) == DraftRun.State.QUEUED


def test_without_a_broker_it_gets_a_process_of_its_own(run, settings, monkeypatch):
    settings.CELERY_BROKER_URL = None
    settings.DRAFT_WORKER = "process"
    started = []

    class Process:
        def __init__(self, command, **kwargs):
            started.append(command)

    monkeypatch.setattr(subprocess, "Popen", Process)
    monkeypatch.setattr(processes, "_processes", [])
    assert long_dispatch.DRAFT.dispatch(run.pk) is True
    ((_, script, *arguments),) = started
    assert script.endswith("manage.py")
    call_command(*arguments)
    assert state(run) == DraftRun.State.DONE


def test_the_task_solves_it_and_a_second_message_changes_nothing(run):
    tasks.draft_solve(run.pk)
    ended = state(run), run.ended_at
    tasks.draft_solve(run.pk)
    assert (state(run), run.ended_at) == ended
    assert run.state == DraftRun.State.DONE


def test_the_sweep_finds_a_lost_draft(run, django_capture_on_commit_callbacks):
    long_ago = timezone.now() - dt.timedelta(minutes=5)
    DraftRun.objects.update(state=DraftRun.State.RUNNING, attempt=1, alive_at=long_ago)
    with django_capture_on_commit_callbacks(execute=True):
        assert sweep.sweep() >= 1
    assert state(run) == DraftRun.State.DONE
