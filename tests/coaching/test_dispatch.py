"""From a committed request to its result: nothing here may break the request that logged a set, or lose it."""

import datetime as dt

import pytest
from django.core.management import call_command
from django.db import transaction
from django.utils import timezone

from coaching import dispatch, processes, sweep, tasks
from coaching.models import WeekSummary
from coaching.recompute import run
from logbook.models import RecomputeRequest
from logbook.services.recompute import recompute_request, recompute_requests
from tests.coaching import factories as make
from tests.conftest import make_client

pytestmark = pytest.mark.django_db


def ask(client):
    with transaction.atomic():
        recompute_request(client_id=client.pk, since=make.monday(), reason="set.log")


def ask_for(clients):
    with transaction.atomic():
        recompute_requests(since={client.pk: make.monday() for client in clients}, reason="plan")


@pytest.fixture
def many(world):
    """More clients than a page waits for."""
    return [make_client(world.practice, f"m{number}", world.coach_membership) for number in range(dispatch.FEW + 1)]


def age(seconds):
    RecomputeRequest.objects.update(created_at=timezone.now() - dt.timedelta(seconds=seconds))


def test_without_a_broker_the_rows_are_there_after_the_commit(world, settings, django_capture_on_commit_callbacks):
    settings.CELERY_BROKER_URL = None
    with django_capture_on_commit_callbacks(execute=True):
        ask(world.client)
        assert not WeekSummary.objects.exists()
    assert WeekSummary.objects.filter(client=world.client).exists()
    assert not RecomputeRequest.objects.exists()


def test_a_fault_in_process_breaks_nothing_and_loses_nothing(
    world, settings, monkeypatch, caplog, django_capture_on_commit_callbacks
):
    settings.CELERY_BROKER_URL = None
    monkeypatch.setattr(run, "compute", lambda *args: 1 / 0)
    with django_capture_on_commit_callbacks(execute=True):
        ask(world.client)
    assert RecomputeRequest.objects.count() == 1
    assert "left to the sweep" in caplog.text


def test_with_a_broker_the_task_is_queued_and_nothing_is_computed_here(
    world, settings, monkeypatch, django_capture_on_commit_callbacks
):
    settings.CELERY_BROKER_URL = "redis://127.0.0.1:1/0"
    queued = []
    monkeypatch.setattr(dispatch, "ping", lambda url: None)
    monkeypatch.setattr(tasks.recompute_client, "apply_async", lambda args, **kwargs: queued.append(args))
    with django_capture_on_commit_callbacks(execute=True):
        ask(world.client)
    assert queued == [(world.client.pk,)]
    assert not WeekSummary.objects.exists()


def test_a_few_clients_are_computed_before_the_page_comes_without_a_broker(
    world, settings, monkeypatch, django_capture_on_commit_callbacks
):
    settings.CELERY_BROKER_URL, settings.DRAFT_WORKER = None, "process"
    monkeypatch.setattr(processes, "begin", lambda *command: pytest.fail("no process is needed"))
    with django_capture_on_commit_callbacks(execute=True):
        ask_for([world.client, world.other_client])
    assert not RecomputeRequest.objects.exists()


def test_many_clients_are_computed_by_one_other_process_without_a_broker(
    many, settings, monkeypatch, django_capture_on_commit_callbacks
):
    settings.CELERY_BROKER_URL, settings.DRAFT_WORKER = None, "process"
    begun = []
    monkeypatch.setattr(processes, "begin", lambda *command: begun.append(command))
    with django_capture_on_commit_callbacks(execute=True):
        ask_for(many)
    assert begun == [("recompute", "--pending")]
    assert RecomputeRequest.objects.count() == len(many)


def test_a_process_that_cannot_begin_leaves_many_to_the_sweep(
    many, settings, monkeypatch, caplog, django_capture_on_commit_callbacks
):
    settings.CELERY_BROKER_URL, settings.DRAFT_WORKER = None, "process"
    monkeypatch.setattr(processes, "begin", lambda *command: 1 / 0)
    with django_capture_on_commit_callbacks(execute=True):
        ask_for(many)
    assert RecomputeRequest.objects.count() == len(many)
    assert "left to the sweep" in caplog.text


def test_with_a_broker_many_tasks_are_queued_after_one_question(
    many, settings, monkeypatch, django_capture_on_commit_callbacks
):
    settings.CELERY_BROKER_URL = "redis://127.0.0.1:1/0"
    queued, asked = [], []
    monkeypatch.setattr(dispatch, "ping", asked.append)
    monkeypatch.setattr(tasks.recompute_client, "apply_async", lambda args, **kwargs: queued.append(args))
    with django_capture_on_commit_callbacks(execute=True):
        ask_for(many)
    assert queued == [(client.pk,) for client in many]
    assert len(asked) == 1


def test_a_lost_broker_breaks_no_request(world, settings, caplog):
    settings.CELERY_BROKER_URL = "redis://127.0.0.1:1/0"
    assert dispatch.dispatch(world.client.pk) is False
    assert "left to the sweep" in caplog.text


def test_the_sweep_takes_what_waits_too_long_and_leaves_what_is_fresh(world, settings):
    settings.CELERY_BROKER_URL = None
    settings.RECOMPUTE_SWEEP_S = 60
    for client in (world.client, world.other_client, world.outside_client):
        run.work_off(client.pk)
    make.request(world.client, make.monday())
    age(600)
    make.request(world.other_client, make.monday())
    assert sweep.sweep() == 1
    assert [row.client for row in RecomputeRequest.objects.all()] == [world.other_client]


def test_the_sweep_rolls_over_clients_whose_new_day_has_begun(world, settings):
    settings.CELERY_BROKER_URL = None
    clients = [world.client, world.other_client, world.outside_client]
    for client in clients:
        run.work_off(client.pk)
    assert sweep.clients_behind(timezone.now()) == []
    tomorrow = timezone.now() + dt.timedelta(days=1)
    assert sweep.clients_behind(tomorrow) == sorted(client.pk for client in clients)


def test_a_new_day_begins_in_the_clients_own_zone(world):
    world.client.user.time_zone = "Pacific/Kiritimati"
    world.client.user.save()
    noon = timezone.now().replace(hour=12, minute=0)
    for client in (world.client, world.other_client, world.outside_client):
        run.work_off(client.pk, now=noon.replace(hour=0))
    assert sweep.clients_behind(noon) == [world.client.pk]


def test_a_missed_session_is_flagged_though_nobody_logged(world, exercises, settings):
    settings.CELERY_BROKER_URL = None
    plan = make.make_assignment(world.client, world.coach, make.monday(1))
    for day in range(3):
        make.make_day(plan, make.monday() - dt.timedelta(days=3 - day), [(exercises["curl"], 3)])
    sweep.sweep()
    assert world.client.flags.filter(week=make.monday(), rule_id="sessions.missed", severity="act").exists()


def test_rows_of_a_changed_rule_are_swept(world):
    for client in (world.client, world.other_client, world.outside_client):
        run.work_off(client.pk)
    WeekSummary.objects.filter(client=world.client).update(rules="before")
    assert sweep.clients_behind(timezone.now()) == [world.client.pk]


def test_pending_works_off_what_waits_without_a_broker(world, capsys):
    make.request(world.client, make.monday())
    call_command("recompute", "--pending")
    assert not RecomputeRequest.objects.exists()
    assert "1 clients" in capsys.readouterr().out


def test_one_client_can_be_rebuilt_and_an_unknown_one_is_named(world):
    call_command("recompute", "--client", str(world.client.pk))
    assert WeekSummary.objects.filter(client=world.client).exists()
    with pytest.raises(Exception, match="no client 999999"):
        call_command("recompute", "--client", "999999")


def test_a_task_for_a_client_who_is_gone_does_nothing(world):
    tasks.recompute_client(999999)
    assert not WeekSummary.objects.exists()


def test_a_request_of_a_clock_that_was_put_back_since_is_swept(world):
    ask(world.client)
    age(-3600)
    assert world.client.pk in sweep.waiting_clients(timezone.now())
    age(0)
    assert world.client.pk not in sweep.waiting_clients(timezone.now())
