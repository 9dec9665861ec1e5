"""The pages of a draft: nothing is begun from a form that makes no sense, and every answer can be acted upon."""

import datetime as dt

import pytest
from django.urls import reverse
from django.utils import timezone
from pytest_django.asserts import assertContains, assertNotContains, assertRedirects

from programs.models import ClientEquipment, ClientLimit, DraftRun, Exercise, Limit
from programs.services.draft_ask import AskedTarget, ask_from_json
from programs.services.draft_program import draft_make_program
from programs.services.draft_work import draft_work_off
from tests.programs.draft_helpers import small_ask, start
from tests.programs.factories import make_library

pytestmark = pytest.mark.django_db
State = DraftRun.State


@pytest.fixture
def exercises(db):
    return make_library()


@pytest.fixture
def desk(client, world, exercises):
    client.force_login(world.coach)
    return client


def fields(**more):
    """Two days for biceps and triceps."""
    return {
        "name": "Arms", "status": "intermediate", "minutes-0": "45", "minutes-3": "45",
        "slots_per_day": "8", "sets": "2-4", "session_cap": "10",
        "equipment_choice": "all", "seconds": "5", "seed": "0",
        "priority-biceps": "normal", "floor-biceps": "4", "ceiling-biceps": "8",
        "priority-triceps": "focus", "priority-lats": "out", **more,
    }  # fmt: skip


def ask(desk, **more):
    values = fields(**more)
    return desk.post(reverse("draft-new"), {key: value for key, value in values.items() if value is not None})


def done(world, **more):
    run = start(world, small_ask(**more))
    draft_work_off(run.pk)
    run.refresh_from_db()
    return run


def page(desk, run, **extra):
    return desk.get(reverse("draft-detail", args=[run.pk]), **extra)


def test_the_form_says_that_the_warm_up_is_part_of_the_minutes(desk, exercises):
    assertContains(desk.get(reverse("draft-new")), "5 of the minutes are for getting warm.")


def test_a_request_is_kept_as_it_was_written(desk, exercises):
    response = ask(
        desk,
        **{"exercises-biceps": "2, 1", "long_must-triceps": "on", "include": [exercises.curl.pk], "weight-grade": "3"},
    )
    run = DraftRun.objects.get()
    assertRedirects(response, reverse("draft-detail", args=[run.pk]))
    kept = ask_from_json(run.ask)
    assert [(day.weekday, day.minutes) for day in kept.days] == [(0, 45), (3, 45)]
    assert kept.targets["biceps"] == AskedTarget(4, 8, exercises=((2, 2), (1, 1)))
    assert kept.targets["triceps"] == AskedTarget(12, 20, "focus", long_must=True)
    assert "lats" not in kept.targets
    assert (kept.include, kept.weights) == ((exercises.curl.pk,), {"grade": 3.0})


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"minutes-0": "", "minutes-3": ""}, "Give the minutes of at least one weekday."),
        ({"minutes-0": "5"}, "greater than or equal to 10"),
        ({"minutes-0": "9999"}, "less than or equal to 240"),
        ({"equipment_choice": "these"}, "Tick at least one piece of equipment"),
        ({"floor-biceps": "9"}, "The range runs from the smaller number to the larger one."),
        ({"floor-biceps": ""}, "Give both ends, or neither."),
        ({"floor-biceps": "many"}, "Enter a number."),
        ({"priority-biceps": "out", "priority-triceps": "out"}, "there is nothing to draft for"),
        ({"exercises-biceps": "1, 2, 3"}, "Write one number for all days, or 2 with commas"),
        ({"exercises-biceps": "two"}, "write a number or a range"),
        ({"sets": "4-2"}, "the range runs from the smaller number"),
        ({"reps_single": "8-12"}, "Give repetitions and RIR, or neither."),
        ({"reps_single": "8-12", "rir_single": "4"}, "must lie between 0 and 3"),
        ({"weight-floor": "0.5"}, "must weigh at least as much as one above it"),
        ({"weight-grade": "-1"}, "greater than or equal to 0"),
        ({"limits": ["no-such"]}, "no-such is not one of the available choices"),
        ({"seconds": "600"}, "less than or equal to 60"),
        ({"name": ""}, "This field is required."),
    ],
)  # fmt: skip
def test_what_makes_no_sense_is_said_beside_its_field_and_nothing_is_begun(desk, change, words):
    response = ask(desk, **change)
    assertContains(response, words, status_code=422)
    assertContains(response, 'name="minutes-3"', status_code=422)
    assert not DraftRun.objects.exists()


def test_an_exercise_in_both_lists_is_said(desk, exercises):
    response = ask(desk, include=[exercises.curl.pk], avoid=[exercises.curl.pk])
    assertContains(response, "Stands in both lists: Wand curl.", status_code=422)


def test_an_exercise_of_another_practice_is_not_taken(desk, world, exercises):
    Exercise.objects.filter(pk=exercises.curl.pk).update(practice=world.outside_client.practice)
    response = ask(desk, include=[exercises.curl.pk])
    assertContains(response, "cannot be used any more", status_code=422)


def test_looking_for_an_exercise_keeps_what_was_typed(desk, exercises):
    response = ask(
        desk, **{"look": "include", "include-q": "hammer", "include": [exercises.curl.pk], "minutes-0": "33"}
    )
    assertContains(response, "Hammer grip curl")
    assertContains(response, 'value="33"')
    assertContains(response, f'value="{exercises.curl.pk}" id="include-{exercises.curl.pk}" checked')
    assert not DraftRun.objects.exists()


def test_found_exercises_come_as_a_part(desk, exercises):
    query = {"list": "avoid", "avoid-q": "curl", "avoid": [exercises.reach.pk]}
    response = desk.get(reverse("draft-exercises"), query, headers={"HX-Request": "true"})
    assertContains(response, "Wand curl")
    assertContains(response, f'id="avoid-{exercises.reach.pk}" checked')
    assertNotContains(response, "<html")


def test_a_clients_values_are_filled_in(desk, world, exercises):
    world.client.training_status = "advanced"
    world.client.priorities, world.client.target_overrides = {"lats": "focus"}, {"biceps": [7, 9.5]}
    world.client.minutes_per_session = 75
    world.client.save()
    told = {"client": world.client, "told_by": world.coach}
    limit = Limit.objects.create(slug="overhead", name="arm overhead", sentence="Up.", site="shoulder")
    ClientLimit.objects.create(limit=limit, since=dt.date(2026, 1, 1), **told)
    ClientLimit.objects.create(exercise=exercises.curl, since=dt.date(2026, 1, 1), **told)
    ClientEquipment.objects.create(equipment=exercises.curl.equipment, **told)
    response = desk.get(reverse("draft-new"), {"client": world.client.pk})
    assertContains(response, 'value="overhead" id="limit-overhead" checked')
    assertContains(response, f'id="avoid-{exercises.curl.pk}" checked')
    assertContains(response, f'id="equipment-{exercises.curl.equipment_id}" checked')
    assertContains(response, 'name="minutes-0" value="75"')
    assertContains(response, '<option value="advanced" selected>advanced</option>', html=True)
    assertContains(response, 'name="ceiling-biceps" value="9.5"')
    assertContains(response, f'name="client" value="{world.client.pk}"')


def test_the_form_costs_the_same_for_few_and_many(desk, world, exercises, django_assert_num_queries):
    from tests.programs.factories import make_exercise

    with django_assert_num_queries(7):
        desk.get(reverse("draft-new"))
    for number in range(6):
        make_exercise(f"More {number}", {exercises.bi: 1})
    with django_assert_num_queries(7):
        desk.get(reverse("draft-new"))


def test_progress_is_shown_and_found_again_by_a_poll(desk, world):
    run = start(world)
    DraftRun.objects.update(state=State.RUNNING, progress={"seconds": 2, "best": 90.0, "bound": 99.0, "gap": 0.1})
    DraftRun.objects.update(alive_at=run.queued_at, started_at=run.queued_at)
    assertContains(page(desk, run), "90.0 points")
    polled = page(desk, run, headers={"HX-Request": "true"})
    assertContains(polled, "10.0 %")
    assertNotContains(polled, "<html")
    DraftRun.objects.update(state=State.CANCELLED)
    assert page(desk, run, headers={"HX-Request": "true"}).headers["HX-Refresh"] == "true"
    assertContains(page(desk, run), "Stopped before a week was found.")


def test_stop_ends_a_draft_that_waits(desk, world):
    run = start(world)
    desk.post(reverse("draft-stop", args=[run.pk]))
    run.refresh_from_db()
    assert run.state == State.CANCELLED


def test_the_week_is_shown_with_reasons_and_the_next_best(desk, world):
    response = page(desk, done(world))
    assertContains(response, "Day 1, Monday")
    assertContains(response, "of the 4 sets a week that triceps should have at least")
    assertContains(response, "The next best would cost")
    assertContains(response, "nothing:")  # all of the little library's exercises are graded the same
    assertContains(response, "from the best week there is")
    assertContains(response, "inside")


def test_the_result_costs_the_same_for_one_day_and_two(desk, world, django_assert_num_queries):
    from programs.services.draft_ask import AskedDay

    small, large = done(world, days=(AskedDay(0, 30),)), done(world)
    for run in (small, large):
        with django_assert_num_queries(9):
            page(desk, run)


def test_a_draft_becomes_a_program_in_the_editor(desk, world):
    run = done(world)
    response = desk.post(reverse("draft-program", args=[run.pk]))
    run.refresh_from_db()
    assertRedirects(response, reverse("program-editor", args=[run.program_id]))
    assertContains(page(desk, run), "Open the program")


def test_the_program_leads_back_to_why_it_was_drafted_so_for_who_may_read_the_draft(desk, client, world):
    program = draft_make_program(run=(run := done(world)), author=world.coach)
    reasons = reverse("draft-detail", args=[run.pk])
    assertContains(desk.get(reverse("program-editor", args=[program.pk])), reasons)
    client.force_login(world.colleague)
    assertNotContains(client.get(reverse("program-editor", args=[program.pk])), reasons)


def test_a_clash_is_said_in_words_and_a_relaxation_drafts_again(desk, world):
    # 30 sets do not fit into two days of 45 minutes.
    run = done(world, targets={"biceps": AskedTarget(30, 40, floor_must=True)})
    response = page(desk, run)
    assertContains(response, "At least 30 sets a week for biceps.")
    floors = [n for n, one in enumerate(run.result["relaxations"]) if one["demand"]["kind"] == "floor"]
    desk.post(reverse("draft-relax", args=[run.pk]), {"relaxation": floors[0]})
    again = DraftRun.objects.latest("pk")
    assert ask_from_json(again.ask).targets["biceps"].floor < 30
    draft_work_off(again.pk)
    again.refresh_from_db()
    assert again.state == State.DONE


def test_an_unknown_relaxation_is_not_found(desk, world):
    run = done(world)
    for number in ("0", "99", "x", ""):
        assert desk.post(reverse("draft-relax", args=[run.pk]), {"relaxation": number}).status_code == 404


def test_no_draft_holds_what_a_limit_closes(desk, world, exercises):
    limit = Limit.objects.create(slug="overhead", name="arm overhead", sentence="Up.", site="shoulder")
    Exercise.objects.update(limits_judged=True)
    exercises.press.limits.add(limit)
    Exercise.objects.filter(pk=exercises.hammer.pk).update(limits_judged=False)
    run = done(world, limits=("overhead",))
    used = {slot["exercise"] for day in run.result["days"] for slot in day["slots"]}
    assert used
    assert not used & {exercises.press.pk, exercises.hammer.pk}


def test_the_request_can_be_changed_with_every_value_kept(desk, world, exercises):
    run = start(world, small_ask(avoid=(exercises.curl.pk,), weights={"grades.activation": 2.5}, sets=(3, 5)))
    response = desk.get(reverse("draft-new"), {"again": run.pk})
    assertContains(response, 'name="weight-grades.activation" value="2.5"')
    assertContains(response, 'value="3–5"')
    assertContains(response, f'id="avoid-{exercises.curl.pk}" checked')
    assertContains(response, 'name="floor-biceps" value="4"')


def test_a_colleague_does_not_see_a_draft_and_a_client_none(client, world, exercises):
    run = start(world)
    for user in (world.colleague, world.outsider, world.client.user):
        client.force_login(user)
        assert page(client, run).status_code == 404


def test_drafts_are_listed_page_by_page(desk, world, django_assert_num_queries):
    start(world)
    with django_assert_num_queries(5):
        desk.get(reverse("draft-list"))
    for _ in range(30):
        run = start(world)
        DraftRun.objects.update(state=State.CANCELLED)
    with django_assert_num_queries(5):
        response = desk.get(reverse("draft-list"))
    assertContains(response, reverse("draft-detail", args=[run.pk]))
    assertContains(response, "Page 1 of 2")


def test_a_draft_that_nothing_picks_up_says_so_and_can_be_stopped(desk, world):
    run = start(world)
    assertContains(page(desk, run), "Waiting to begin")
    DraftRun.objects.update(created_at=timezone.now() - dt.timedelta(minutes=1))
    response = page(desk, run)
    assertContains(response, "Nothing picks it up")
    assertContains(response, reverse("draft-stop", args=[run.pk]))


def test_a_draft_behind_another_says_that_its_turn_comes(desk, world):
    run, other = start(world), start(world)
    DraftRun.objects.update(created_at=timezone.now() - dt.timedelta(minutes=1))
    DraftRun.objects.filter(pk=other.pk).update(state=State.RUNNING, alive_at=timezone.now())
    response = page(desk, run)
    assertContains(response, "Waiting for its turn")
    assertNotContains(response, "Nothing picks it up")
