"""Derived rows follow from the log alone: run twice, in any order, or rebuilt from nothing, they are the same."""

import datetime as dt

import pytest
from django.core.management import call_command
from django.db import transaction
from django.utils import timezone

from coaching.models import FlagRow, Prompt, StrengthPoint, WeekSummary
from coaching.recompute import run
from coaching.recompute.rules import fingerprint
from logbook.models import RecomputeRequest, SetLog
from programs.models import Exercise
from programs.services.exercise_effects import exercises_changed
from tests.coaching import factories as make
from tests.coaching.dump import dump
from tests.coaching.once import once

pytestmark = pytest.mark.django_db


def train(world, exercises):
    """Twelve weeks with a bad end, pain, and gaps, computed; every kind of derived row is there."""
    plan = make.train(world.client, world.coach, exercises, weeks=12, fade=2, seed=3)
    session = world.client.sessions.order_by("-date").first()
    make.report_pain(session, exercises["curl"], 6)
    make.train(world.other_client, world.colleague, exercises, weeks=5, keep=0.5, seed=4)
    for client in (world.client, world.other_client, world.outside_client):
        run.work_off(client.pk)
    rows = dump()
    assert all(rows[kind] for kind in rows), {kind: len(rows[kind]) for kind in rows}
    return plan


made, copied, world, exercises = once(train)


@pytest.fixture
def trained(copied):
    """The plan."""
    return copied[2]


def test_a_second_run_changes_nothing(world, trained):
    before = dump()
    make.request(world.client, make.monday(3))
    run.work_off(world.client.pk)
    assert dump() == before
    assert not RecomputeRequest.objects.exists()


def test_recompute_all_rebuilds_every_row_bit_for_bit(trained, capsys):
    before = dump()
    for model in (WeekSummary, StrengthPoint, FlagRow, Prompt):
        model.objects.all().delete()
    call_command("recompute", "--all")
    assert dump() == before


@pytest.mark.parametrize("weeks_ago", [1, 5, 9])
def test_an_edit_to_an_old_set_reaches_every_week_that_looks_back_at_it(world, trained, weeks_ago):
    rows = SetLog.objects.filter(client=world.client, session__date__gte=make.monday(weeks_ago))
    row = rows.order_by("session__date")[0]
    SetLog.objects.filter(pk=row.pk).update(load=90.0, load_kg=90.0, reps=12)
    make.request(world.client, row.session.date)
    run.work_off(world.client.pk)
    before = dump()
    run.rebuild(world.client.pk)
    assert dump() == before


def test_a_change_of_credits_reaches_every_week_since_the_plan_first_named_the_exercise(world, trained, exercises):
    with transaction.atomic():
        exercises["curl"].credits.update(credit=0.5)
        exercises_changed(Exercise.objects.filter(slug="curl"))
    for client in (world.client, world.other_client):
        run.work_off(client.pk)
    before = dump()
    run.rebuild(world.client.pk)
    run.rebuild(world.other_client.pk)
    assert dump() == before


def test_a_body_mass_typed_later_reaches_the_pull_ups_of_weeks_after(world, trained):
    make.weigh(world.client, make.monday(8), 120.0)
    make.request(world.client, make.monday(8), reason="body_mass.record")
    run.work_off(world.client.pk)
    before = dump()
    run.rebuild(world.client.pk)
    assert dump() == before


def test_requests_go_only_with_their_result(world, trained, monkeypatch):
    make.request(world.client, make.monday())

    def fail(*args):
        raise OSError("the machine stopped here")

    monkeypatch.setattr(run, "save", fail)
    before = dump()
    with pytest.raises(OSError, match="stopped"):
        run.work_off(world.client.pk)
    assert RecomputeRequest.objects.count() == 1
    assert dump() == before


def test_a_request_that_came_meanwhile_is_not_deleted(world, trained, monkeypatch):
    make.request(world.client, make.monday())
    original = run.save

    def meanwhile(*args):
        original(*args)
        make.request(world.client, make.monday())

    monkeypatch.setattr(run, "save", meanwhile)
    run.work_off(world.client.pk)
    assert RecomputeRequest.objects.count() == 1


def test_rows_made_by_other_rules_are_stale(world, trained):
    WeekSummary.objects.filter(client=world.client, week=make.monday(2)).update(rules="before", volume={})
    assert run.work_off(world.client.pk) == [make.monday(2)]
    assert WeekSummary.objects.get(client=world.client, week=make.monday(2)).volume["groups"]


def test_a_change_of_target_ranges_marks_the_rows_as_stale(world):
    before = fingerprint(world.client)
    world.client.target_overrides = {"chest": [4, 9]}
    assert fingerprint(world.client) != before


def test_a_new_day_gives_new_rows_though_nobody_logged(world, trained):
    tomorrow_week = timezone.now() + dt.timedelta(days=7)
    weeks = run.work_off(world.client.pk, now=tomorrow_week)
    assert weeks[-1] == make.monday() + dt.timedelta(days=7)
    assert make.monday() in weeks
