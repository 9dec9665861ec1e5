"""What a week's row keeps of the body, and what a strength point keeps of both sides."""

import datetime as dt

import pytest

from coaching.models import StrengthPoint, WeekSummary
from coaching.recompute import run
from logbook.models import SetLog
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db


@pytest.fixture
def trained(world, exercises):
    make.train(world.client, world.coach, exercises, weeks=4, seed=3)
    return world.client


def test_a_week_keeps_its_own_masses_and_pains_by_site(trained, exercises):
    day = make.monday(2)
    trained.body_masses.all().delete()
    make.weigh(trained, day, 81.0)
    make.weigh(trained, day + dt.timedelta(days=7), 82.0)
    session = trained.sessions.filter(date__gte=day).order_by("date")[0]
    for score in (2, 6):
        make.report_pain(session, exercises["curl"], score, "elbow")
    make.report_pain(session, exercises["squat"], 3, "knee")
    run.work_off(trained.pk)
    body = WeekSummary.objects.get(client=trained, week=day).body
    assert [one["kg"] for one in body["masses"]] == [81.0]
    assert [(one["site"], one["reports"], one["worst"]) for one in body["pain"]] == [("elbow", 2, 6), ("knee", 1, 3)]
    assert all(one["last"] == session.date.isoformat() for one in body["pain"])


def test_a_one_sided_exercise_keeps_both_sides_and_their_difference(trained):
    run.work_off(trained.pk)
    one_sided = SetLog.objects.filter(client=trained, side="left").first()
    right = SetLog.objects.filter(session=one_sided.session, exercise=one_sided.exercise, side="right", warm_up=False)
    right.update(load=1.0, load_kg=1.0)
    make.request(trained, one_sided.session.date)
    run.work_off(trained.pk)
    point = StrengthPoint.objects.get(session=one_sided.session, exercise=one_sided.exercise)
    sides = point.inputs["sides"]
    assert sides["right"]["e1rm_kg"] == point.e1rm_kg < sides["left"]["e1rm_kg"]
    low, percent, high = sides["percent"]
    assert low < percent < high
    assert percent == pytest.approx(100 * (1 - sides["right"]["e1rm_kg"] / sides["left"]["e1rm_kg"]))


def test_an_exercise_for_both_sides_at_once_has_none(trained, exercises):
    run.work_off(trained.pk)
    points = StrengthPoint.objects.filter(client=trained, exercise=exercises["bench-press"])
    assert {point.inputs["sides"] for point in points} == {None}
