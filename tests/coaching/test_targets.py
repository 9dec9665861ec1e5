"""The next targets on the plan: from what was done, never heavier on missing or doubtful data."""

import datetime as dt

import pytest
from django.utils import timezone

from coaching.models import StrengthPoint
from coaching.recompute import run
from logbook.reads.reasons import reason_text
from programs.models import ClientEquipment, ClientLimit, Exercise, ExerciseLink, Limit, PlannedSlot
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db
LAST, NEXT = make.monday(1), make.monday() + dt.timedelta(days=7)


@pytest.fixture
def plan(world):
    return make.make_assignment(world.client, world.coach, LAST)


@pytest.fixture
def targets(world, exercises, plan):
    """Plan an exercise for last week and the next, do the first as told, and return the target of the second."""

    def worked_out(slug, do=True, sets=3, **values):
        first = make.make_day(plan, LAST, [(exercises[slug], sets)])
        coming = make.make_day(plan, NEXT, [(exercises[slug], sets)], week=2)
        if do:
            session = make.begin(world.client, LAST, first)
            slot = first.slots.get()
            for number in range(1, values.pop("done", sets) + 1):
                make.log_set(session, exercises[slug], number, slot=slot, **values)
        run.work_off(world.client.pk)
        return PlannedSlot.objects.get(session=coming)

    return worked_out


def test_without_history_there_is_no_load_but_a_reason(targets):
    slot = targets("bench-press", do=False)
    assert slot.target_load_kg is None
    assert slot.target_reason["code"] == "first_time"


def test_a_plan_that_gives_a_starting_load_begins_with_it_once_and_never_heavier(world, exercises, plan):
    new = make.make_day(plan, NEXT, [(exercises["bench-press"], 3)])
    PlannedSlot.objects.filter(session=new).update(start_load_kg=40.0)
    run.work_off(world.client.pk)
    slot = PlannedSlot.objects.get(session=new)
    assert (slot.target_load_kg, slot.target_reason["code"]) == (40.0, "start_given")
    assert "Begin with 40 kg" in reason_text(slot.target_reason, "kg")


def test_a_starting_load_under_what_was_done_counts_and_one_over_it_does_not(targets):
    slot = targets("bench-press", load=60.0, reps=10, rir=2.0)
    for start, expected, code in ((50.0, 50.0, "start_lighter"), (90.0, 60.0, "add_reps")):
        PlannedSlot.objects.filter(pk=slot.pk).update(start_load_kg=start)
        run.rebuild(slot.session.client_id)
        slot.refresh_from_db()
        assert (slot.target_load_kg, slot.target_reason["code"]) == (expected, code)


def test_sets_with_reps_to_spare_ask_for_more_repetitions_and_name_their_sets(targets):
    slot = targets("bench-press", load=60.0, reps=10, rir=2.0)
    assert (slot.target_load_kg, slot.target_reps) == (60.0, 11)
    assert len(slot.target_reason["evidence"]) == 3
    assert slot.target_reason["rule_id"] == "progression.double"


def test_the_top_of_the_range_asks_for_the_next_real_load(targets):
    slot = targets("bench-press", load=60.0, reps=12, rir=2.0)
    assert (slot.target_load_kg, slot.target_reps) == (62.5, 8)


@pytest.mark.parametrize("values", [{"rir": None}, {"done": 2}, {"rir": 0.0}, {"side": "left"}])
def test_missing_or_hard_sets_never_give_a_heavier_load(targets, values):
    """RIR missing, a set missing, effort over what was prescribed, only one side trained."""
    slot = targets("one-arm-pushdown", **{"load": 20.0, "reps": 12, "rir": 2.0, **values})
    assert slot.target_load_kg <= 20.0


def test_pain_over_five_takes_the_load_off(world, exercises, targets):
    make.report_pain(make.begin(world.client, make.monday(1)), exercises["curl"], 7)
    slot = targets("curl", load=14.0, reps=12)
    assert slot.target_load_kg is None
    assert slot.target_reason["action"] == "stop"


def test_pounds_stay_on_the_lifters_own_steps(world, targets, exercises):
    """100 lb on a rack in pounds goes to 105 lb, not to a load in kilograms."""
    rack = exercises["curl"].equipment
    rack.ladder_lb = {"kind": "fixed", "min": 5, "max": 150, "step": 5, "unit": "lb"}
    rack.save()
    world.client.user.load_unit = "lb"
    world.client.user.save()
    slot = targets("curl", load=100.0, load_kg=100 * 0.45359237, unit="lb", reps=12)
    assert slot.target_load_kg == pytest.approx(105 * 0.45359237, abs=1e-5)


def test_a_set_without_load_gives_no_estimate_and_a_target_in_repetitions(targets):
    slot = targets("pull-up", load=0.0, reps=12)
    assert not StrengthPoint.objects.exists()
    assert slot.target_reps > 12


def test_targets_of_a_begun_session_are_a_record(world, exercises, plan):
    first = make.make_day(plan, LAST, [(exercises["curl"], 3)])
    PlannedSlot.objects.update(target_load_kg=99.0, target_reason={"code": "as shown"})
    make.do_day(first, {"curl": 14.0})
    run.rebuild(world.client.pk)
    assert first.slots.get().target_load_kg == 99.0


def test_what_lies_beyond_two_weeks_has_no_target_yet(world, exercises, plan):
    far = make.make_day(plan, make.monday() + dt.timedelta(weeks=4), [(exercises["curl"], 3)])
    run.work_off(world.client.pk)
    assert far.slots.get().target_reason is None


def test_a_ladder_damaged_by_hand_stops_nobody(targets, exercises):
    rack = exercises["curl"].equipment
    rack.ladder = {"kind": "nonsense"}
    rack.save()
    slot = targets("curl", load=14.0, reps=12)
    assert slot.target_load_kg is None or slot.target_load_kg <= 14.0


def test_seconds_say_nothing_about_strength(targets, exercises):
    exercises["curl"].rep_unit = "seconds"
    exercises["curl"].save()
    targets("curl", load=14.0, reps=12)
    assert not StrengthPoint.objects.exists()


def test_seconds_are_called_seconds_in_the_suggestion(targets, exercises):
    exercises["pull-up"].rep_unit = "seconds"
    exercises["pull-up"].save()
    slot = targets("pull-up", load=0.0, reps=10)
    assert (slot.target_reason["code"], slot.target_reps) == ("add_reps_seconds", 12)
    assert reason_text(slot.target_reason, "kg") == "All sets done at this load with effort to spare: aim for 12 s."


@pytest.fixture
def easier(exercises):
    """The assisted pull-up is the easier variant of the pull-up, and there is nothing lighter than the body."""
    ExerciseLink.objects.create(exercise=exercises["pull-up"], other=exercises["assisted-pull-up"], kind="easier")
    return exercises["assisted-pull-up"]


def test_under_the_floor_with_nothing_lighter_the_librarys_easier_variant_is_named(targets, easier):
    slot = targets("pull-up", load=0.0, reps=5)
    assert slot.target_reason["code"] == "floor_no_lighter_variant"
    assert "change to the easier variant: Assisted pull-up." in reason_text(slot.target_reason, "kg")


@pytest.mark.parametrize("why", ["joint or position", "exercise", "not judged", "equipment", "archived", "another's"])
def test_a_variant_that_is_closed_to_the_client_is_never_named(world, exercises, targets, easier, why):
    told = {"client": world.client, "since": LAST, "told_by": world.coach}
    limit = Limit.objects.create(slug="hang", name="hanging", sentence="Hangs.", site="shoulder")
    Exercise.objects.update(limits_judged=True)
    if why == "joint or position":
        easier.limits.add(limit)
        ClientLimit.objects.create(limit=limit, **told)
    elif why == "exercise":
        ClientLimit.objects.create(exercise=easier, **told)
    elif why == "not judged":
        Exercise.objects.update(limits_judged=False)
        ClientLimit.objects.create(limit=limit, **told)
    elif why == "equipment":
        ClientEquipment.objects.create(client=world.client, equipment=exercises["curl"].equipment, told_by=world.coach)
    elif why == "archived":
        Exercise.objects.filter(pk=easier.pk).update(archived_at=timezone.now())
    else:
        Exercise.objects.filter(pk=easier.pk).update(practice=world.outside_client.practice)
    assert targets("pull-up", load=0.0, reps=5).target_reason["code"] == "floor_no_lighter"
