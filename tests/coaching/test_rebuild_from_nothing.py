"""Derived rows of a client who had none: whatever came first, they are those of the log."""

import random

import pytest

from coaching.models import WeekSummary
from coaching.recompute import run
from logbook.models import SetLog
from tests.coaching import factories as make
from tests.coaching.dump import dump

pytestmark = pytest.mark.django_db


def test_rows_do_not_depend_on_the_order_in_which_sets_were_computed(world, exercises):
    """Each session is logged and computed on its own, in a shuffled order, and compared with a clean rebuild."""
    make.train(world.client, world.coach, exercises, weeks=9, fade=2, seed=5)
    ids = list(SetLog.objects.order_by("id").values_list("pk", "session__date"))
    SetLog.objects.update(deleted_at=make.begin(world.client, make.monday()).started_at)
    run.work_off(world.client.pk)
    random.Random(7).shuffle(ids)
    for start in range(0, len(ids), 40):
        some = ids[start : start + 40]
        SetLog.objects.filter(pk__in=[pk for pk, _ in some]).update(deleted_at=None)
        for _, day in some:
            make.request(world.client, day)
        run.work_off(world.client.pk)
    before = dump()
    run.rebuild(world.client.pk)
    assert dump() == before


def test_weeks_before_the_first_log_are_dropped_when_the_plan_moves(world, exercises):
    plan = make.make_assignment(world.client, world.coach, make.monday(4))
    day = make.make_day(plan, make.monday(4), [(exercises["curl"], 3)])
    run.work_off(world.client.pk)
    assert WeekSummary.objects.count() == 5
    day.date = make.monday(1)
    day.save()
    make.request(world.client, make.monday(4))
    run.work_off(world.client.pk)
    assert WeekSummary.objects.count() == 2
