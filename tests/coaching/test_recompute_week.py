"""What one week's row says: the facts of the trade, and how sides, warm-ups, pounds and bodies are counted."""

import datetime as dt

import pytest
from django.urls import reverse

from coaching.models import StrengthPoint, WeekSummary
from coaching.recompute import run
from programs.models import Exercise
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db
THIS = make.monday()
LAST = make.monday(1)


@pytest.fixture
def plan(world, exercises):
    return make.make_assignment(world.client, world.coach, LAST)


def week_of(client, monday=LAST):
    run.work_off(client.pk)
    return WeekSummary.objects.get(client=client, week=monday)


def test_a_day_of_three_exercises_of_four_sets_counts_twelve_sets(world, exercises, plan):
    """Common practice, no source."""
    three = [(exercises["curl"], 4)] * 3
    make.make_day(plan, LAST, three)
    week = week_of(world.client)
    assert week.volume["groups"]["biceps"]["planned"] == 12
    assert week.volume["heads"]["biceps-long"]["planned"] == 12


def test_a_second_day_of_two_exercises_of_three_sets_makes_eighteen(world, exercises, plan):
    """Common practice, no source."""
    make.make_day(plan, LAST, [(exercises["curl"], 4)] * 3)
    make.make_day(plan, LAST + dt.timedelta(days=3), [(exercises["curl"], 3)] * 2)
    assert week_of(world.client).volume["groups"]["biceps"]["planned"] == 18


def test_done_volume_has_credit_per_head_and_the_largest_per_group(world, exercises, plan):
    day = make.make_day(plan, LAST, [(exercises["bench-press"], 4)])
    make.do_day(day, {"bench-press": 60})
    volume = week_of(world.client).volume
    assert volume["heads"]["sternocostal"]["done"] == 4
    assert volume["heads"]["clavicular"]["done"] == 2
    assert volume["groups"]["chest"]["done"] == 4
    assert volume["groups"]["triceps"]["done"] == 2


def test_both_sides_of_a_one_sided_set_count_once(world, exercises, plan):
    day = make.make_day(plan, LAST, [(exercises["one-arm-pushdown"], 3)])
    make.do_day(day, {"one-arm-pushdown": 20})
    week = week_of(world.client)
    group = week.volume["groups"]["triceps"]
    assert (group["planned"], group["done"], group["ahead"]) == (3, 3, 0)
    assert (week.compliance["sets_planned"], week.compliance["sets_done"]) == (3, 3)


def test_warm_up_sets_and_deleted_sets_count_nowhere(world, exercises, plan):
    session = make.begin(world.client, LAST)
    make.log_set(session, exercises["curl"], 1, warm_up=True)
    make.log_set(session, exercises["curl"], 1, deleted_at=session.started_at)
    week = week_of(world.client)
    assert week.volume["groups"]["biceps"]["done"] == 0
    assert week.volume["heads"] == {}
    assert week.volume["tally"]["warm_up"] == 1
    assert not StrengthPoint.objects.exists()


def test_sessions_sets_and_effort_are_set_against_the_plan(world, exercises, plan):
    first = make.make_day(plan, LAST, [(exercises["bench-press"], 4)])
    make.make_day(plan, LAST + dt.timedelta(days=2), [(exercises["squat"], 4)])
    make.do_day(first, {"bench-press": 60}, rir=0.0)
    kept = week_of(world.client).compliance
    assert (kept["sessions_done"], kept["sessions_planned"], kept["sessions_due"]) == (1, 2, 2)
    assert (kept["sets_done"], kept["sets_planned"]) == (4, 8)
    assert kept["mean_rir_gap"] == -1.0
    assert kept["effort_share"] == 0.0


def test_the_point_of_a_session_keeps_its_set_and_the_body_mass_used(world, exercises, plan):
    make.weigh(world.client, LAST - dt.timedelta(days=3), 80.0)
    session = make.begin(world.client, LAST)
    make.log_set(session, exercises["pull-up"], 1, load=10.0, reps=8, rir=2.0)
    helped = make.log_set(session, exercises["assisted-pull-up"], 1, load=20.0, reps=8, rir=2.0)
    run.work_off(world.client.pk)
    plus = StrengthPoint.objects.get(exercise=exercises["pull-up"])
    assert plus.e1rm_kg == pytest.approx(90 * (1 + 10 / 30))
    assert plus.inputs["body_mass"]["kg"] == 80.0
    less = StrengthPoint.objects.get(exercise=exercises["assisted-pull-up"])
    assert less.e1rm_kg == pytest.approx(60 * (1 + 10 / 30))
    assert less.inputs["set"] == str(helped.pk)


def test_a_push_up_moves_only_a_part_of_the_body(world, exercises, plan):
    Exercise.objects.filter(pk=exercises["pull-up"].pk).update(body_share=0.64)
    make.weigh(world.client, LAST - dt.timedelta(days=3), 80.0)
    make.log_set(make.begin(world.client, LAST), exercises["pull-up"], 1, load=10.0, reps=8, rir=2.0)
    run.work_off(world.client.pk)
    point = StrengthPoint.objects.get(exercise=exercises["pull-up"])
    assert point.e1rm_kg == pytest.approx((0.64 * 80 + 10) * (1 + 10 / 30))
    assert point.inputs["body_mass"]["share"] == 0.64


def test_the_equation_is_a_setting_and_a_change_of_it_makes_the_week_anew(world, exercises, plan, settings):
    make.weigh(world.client, LAST - dt.timedelta(days=3), 80.0)
    make.log_set(make.begin(world.client, LAST), exercises["pull-up"], 1, load=10.0, reps=6, rir=2.0)
    run.work_off(world.client.pk)
    assert StrengthPoint.objects.get().inputs["formula"] == "epley"
    settings.E1RM_EQUATION = "oconner"
    assert run.work_off(world.client.pk), "the weeks were not seen as stale"
    point = StrengthPoint.objects.get()
    assert (point.inputs["formula"], point.e1rm_kg) == ("oconner", pytest.approx(90 * (1 + 0.025 * 8)))


def test_assistance_above_the_body_gives_no_point(world, exercises, plan):
    make.weigh(world.client, LAST - dt.timedelta(days=3), 60.0)
    make.log_set(make.begin(world.client, LAST), exercises["assisted-pull-up"], 1, load=70.0, reps=8, rir=2.0)
    run.work_off(world.client.pk)
    assert not StrengthPoint.objects.exists()


def test_without_a_body_mass_a_pull_up_gives_no_point(world, exercises, plan):
    session = make.begin(world.client, LAST)
    make.log_set(session, exercises["pull-up"], 1, load=10.0)
    week = week_of(world.client)
    assert not StrengthPoint.objects.exists()
    assert week.volume["groups"]["lats"]["done"] == 1


def test_help_of_more_than_the_body_gives_no_point_and_no_crash(world, exercises, plan):
    make.weigh(world.client, LAST, 50.0)
    session = make.begin(world.client, LAST)
    make.log_set(session, exercises["assisted-pull-up"], 1, load=60.0)
    run.work_off(world.client.pk)
    assert not StrengthPoint.objects.exists()


NO_ESTIMATE = {
    "no load": ("bench-press", {"load": 0.0}, "no load was written down"),
    "no body mass": ("pull-up", {"load": 5.0}, "body mass is unknown"),
    "all help": ("assisted-pull-up", {"load": 70.0}, "the assistance is as much as the body"),
    "too many": ("bench-press", {"load": 20.0, "reps": 40}, "too many repetitions"),
    "seconds": ("squat", {"load": 20.0}, "held seconds and steps"),
}


@pytest.mark.parametrize("case", NO_ESTIMATE)
def test_what_cannot_be_estimated_from_is_said_in_words(client, world, exercises, plan, case):
    slug, values, said = NO_ESTIMATE[case]
    if case == "all help":
        make.weigh(world.client, LAST, 60.0)
    if case == "seconds":
        type(exercises[slug]).objects.filter(pk=exercises[slug].pk).update(rep_unit="seconds")
    session = make.begin(world.client, LAST)
    make.log_set(session, exercises[slug], 1, **values)
    make.request(world.client, LAST)
    run.work_off(world.client.pk)
    week = WeekSummary.objects.get(client=world.client, week=LAST)
    assert week.trends[str(exercises[slug].pk)]["level_kg"] is None
    client.force_login(world.coach)
    html = client.get(reverse("client-strength", args=[world.client.pk])).content.decode()
    assert f"<b>{exercises[slug].name}:</b>" in html
    assert said in html


def test_all_warm_ups_say_nothing_and_break_nothing(client, world, exercises, plan):
    session = make.begin(world.client, LAST)
    make.log_set(session, exercises["bench-press"], 1, warm_up=True)
    make.request(world.client, LAST)
    run.work_off(world.client.pk)
    assert WeekSummary.objects.get(client=world.client, week=LAST).trends == {}
    client.force_login(world.coach)
    html = client.get(reverse("client-strength", args=[world.client.pk])).content.decode()
    assert "No set in these weeks allows an estimate." in html


def test_of_two_sides_the_weaker_one_stands_for_the_session(world, exercises, plan):
    session = make.begin(world.client, LAST)
    make.log_set(session, exercises["one-arm-pushdown"], 1, load=30.0, side="left")
    weak = make.log_set(session, exercises["one-arm-pushdown"], 1, load=20.0, side="right")
    run.work_off(world.client.pk)
    assert StrengthPoint.objects.get().inputs["set"] == str(weak.pk)


def test_a_running_week_knows_what_is_still_ahead(world, exercises, plan):
    sunday = THIS + dt.timedelta(days=6)
    make.make_day(plan, sunday, [(exercises["curl"], 4)])
    week = week_of(world.client, THIS)
    assert week.volume["groups"]["biceps"]["ahead"] == 4
    assert week.volume["groups"]["biceps"]["done"] == 0


def test_a_session_of_the_clients_evening_belongs_to_the_clients_day(world, exercises, plan):
    """`date` is the client's own day: UTC has Monday already when it is still Sunday evening there."""
    world.client.user.time_zone = "Pacific/Honolulu"
    world.client.user.save()
    session = make.begin(world.client, THIS - dt.timedelta(days=1))
    session.started_at = dt.datetime.combine(THIS, dt.time(6), dt.UTC)
    session.save()
    make.log_set(session, exercises["curl"], 1)
    run.work_off(world.client.pk)
    assert WeekSummary.objects.get(week=LAST).volume["groups"]["biceps"]["done"] == 1


def test_no_history_gives_a_row_and_no_error(world):
    run.work_off(world.client.pk)
    week = WeekSummary.objects.get(client=world.client, week=THIS)
    assert week.volume["groups"] == {}
    assert [part["code"] for part in week.urgency_reasons] == ["no_plan_ahead"]


def test_the_urgency_is_the_sum_of_its_reasons(world, exercises):
    make.train(world.client, world.coach, exercises, weeks=8, fade=2)
    run.work_off(world.client.pk)
    weeks = list(WeekSummary.objects.all())
    assert len(weeks) == 9
    for week in weeks:
        assert week.urgency == sum(part["points"] for part in week.urgency_reasons)
