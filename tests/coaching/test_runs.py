"""Years that were brought in are computed a run of weeks at a time, each kept by itself; what comes out is the same."""

import uuid

import pytest

from coaching.models import FlagRow, Prompt, StrengthPoint, WeekSummary
from coaching.recompute import calendar, run
from logbook.models import RecomputeRequest
from tests.coaching import factories as make
from tests.coaching.dump import dump

pytestmark = pytest.mark.django_db
WEEKS = 9


@pytest.fixture
def rows(world, exercises, monkeypatch):
    """The derived rows, made in one run and then thrown away; the next are made three weeks at a time."""
    make.train(world.client, world.coach, exercises, weeks=WEEKS, fade=2, seed=3)
    run.work_off(world.client.pk)
    before = dump()
    for model in (WeekSummary, StrengthPoint, FlagRow, Prompt):
        model.objects.all().delete()
    monkeypatch.setattr(calendar, "LONGEST_RUN", 3)
    return before


class Killed(BaseException):
    """A worker's time limit."""


def die_at(monkeypatch, number):
    """Let the worker die while it saves the run of this number."""
    calls = []
    real = run.save

    def save(*args):
        calls.append(args)
        real(*args)
        if len(calls) == number:
            raise Killed

    monkeypatch.setattr(run, "save", save)
    return calls


def test_rows_made_run_by_run_are_those_made_at_once(world, rows):
    assert len(run.work_off(world.client.pk)) == len(rows["weeks"])
    assert dump() == rows


def test_a_worker_that_dies_keeps_the_runs_before_and_the_next_goes_on_from_there(world, rows, monkeypatch):
    make.request(world.client, make.monday(WEEKS), "past")
    die_at(monkeypatch, 2)
    with pytest.raises(Killed):
        run.work_off(world.client.pk)
    kept = sorted(WeekSummary.objects.values_list("week", flat=True))
    assert len(kept) == 3
    assert RecomputeRequest.objects.get().since == kept[-1] + calendar.WEEK
    monkeypatch.undo()
    monkeypatch.setattr(calendar, "LONGEST_RUN", 3)
    assert min(run.work_off(world.client.pk)) > kept[-1]
    assert dump() == rows
    assert not RecomputeRequest.objects.exists()


def test_a_request_that_reaches_some_weeks_begins_where_it_began(world, rows, monkeypatch):
    """How far it reaches is counted from its day."""
    since = make.monday(WEEKS - 1)
    make.request(world.client, since)
    die_at(monkeypatch, 2)
    with pytest.raises(Killed):
        run.work_off(world.client.pk)
    assert RecomputeRequest.objects.get().since == since


def meanwhile(monkeypatch, act):
    """Let something happen once, while the first of several runs is computed."""
    real, done = run.compute, []

    def compute(*args):
        if not done:
            done.append(1)
            act()
        return real(*args)

    monkeypatch.setattr(run, "compute", compute)


def between(monkeypatch, act):
    """Let something happen once, after the first of several runs is kept."""
    real, done = run._run, []

    def one(*args, **kwargs):
        told = real(*args, **kwargs)
        if not done:
            done.append(1)
            act()
        return told

    monkeypatch.setattr(run, "_run", one)


def test_what_is_logged_between_two_runs_keeps_its_request_for_who_comes_next(world, rows, monkeypatch):
    make.request(world.client, make.monday(WEEKS), "past")
    meanwhile(monkeypatch, lambda: make.request(world.client, make.monday(1)))
    run.work_off(world.client.pk)
    assert [one.since for one in RecomputeRequest.objects.all()] == [make.monday(1)]
    assert make.monday(1) in run.work_off(world.client.pk)
    assert not RecomputeRequest.objects.exists()
    assert dump() == rows


def test_a_second_worker_goes_on_where_the_first_stands_and_the_first_stops(world, rows, monkeypatch):
    make.request(world.client, make.monday(WEEKS), "past")
    second = []

    def joins():
        make.request(world.client, make.monday(1))
        second.extend(run.work_off(world.client.pk))

    between(monkeypatch, joins)
    first = run.work_off(world.client.pk)
    assert len(first) == 3
    assert sorted(first + second) == [row["week"] for row in rows["weeks"]]
    assert dump() == rows
    assert not RecomputeRequest.objects.exists()
    world.client.refresh_from_db()
    assert world.client.recompute_by is None


def test_a_worker_that_died_between_its_runs_keeps_nobody_off(world, rows):
    world.client.recompute_by = uuid.uuid4()
    world.client.save()
    assert run.work_off(world.client.pk)
    assert dump() == rows
    world.client.refresh_from_db()
    assert world.client.recompute_by is None


def test_a_rebuild_takes_the_client_and_who_had_it_stops(world, rows, monkeypatch):
    make.request(world.client, make.monday(WEEKS), "past")
    between(monkeypatch, lambda: run.rebuild(world.client.pk))
    assert len(run.work_off(world.client.pk)) == 3
    assert dump() == rows
    assert not RecomputeRequest.objects.exists()
