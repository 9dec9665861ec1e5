"""A draft's life: claimed once, stopped, lost and found, and never written by a worker that it was taken from."""

import datetime as dt

import pytest
from django.utils import timezone, translation

from periodization.draft import Progress
from programs.models import DraftRun
from programs.services import draft_work
from programs.services.draft_ask import AskedTarget
from programs.services.draft_program import draft_make_program
from programs.services.draft_run import ATTEMPTS, TURN_S, TooMany, draft_stop, draft_sweep, waits_for
from programs.services.draft_work import draft_work_off
from tests.programs.draft_helpers import small_ask, start
from tests.programs.factories import make_library

pytestmark = pytest.mark.django_db
State = DraftRun.State


@pytest.fixture
def exercises(db):
    return make_library()


@pytest.fixture
def run(world, exercises):
    return start(world)


def fresh(run):
    run.refresh_from_db()
    return run


def silent(run, seconds=120):
    DraftRun.objects.filter(pk=run.pk).update(alive_at=timezone.now() - dt.timedelta(seconds=seconds))


def used(run):
    return {slot["exercise"] for day in run.result["days"] for slot in day["slots"]}


def test_a_draft_waits_until_a_worker_takes_it_once(run):
    assert run.state == State.QUEUED
    assert draft_work_off(run.pk)
    assert fresh(run).state == State.DONE
    assert not draft_work_off(run.pk)
    assert run.attempt == 1


def test_a_draft_trains_what_was_asked_for_within_its_range(run, exercises):
    draft_work_off(run.pk)
    assert used(fresh(run)) <= {
        exercises.curl.pk,
        exercises.hammer.pk,
        exercises.reach.pk,
        exercises.press.pk,
        exercises.push.pk,
    }
    assert all(group["floor"] <= group["sets"] <= group["ceiling"] for group in run.result["groups"])
    assert {head["slug"] for head in run.result["heads"] if head["direct"]} == {"biceps-head", "triceps-head"}
    assert run.result["gap"] <= 0.005


def test_a_clash_is_kept_with_what_would_help(world, exercises):
    ask = small_ask(targets={"biceps": AskedTarget(30, 40, floor_must=True)})
    run = start(world, ask)
    draft_work_off(run.pk)
    assert fresh(run).state == State.CLASH
    assert "floor" in {one["kind"] for one in run.result["demands"]}
    assert {one["demand"]["kind"] for one in run.result["relaxations"]} >= {"floor"}


def test_the_same_request_gives_the_same_draft(world, exercises):
    first, second = start(world), start(world)
    draft_work_off(first.pk)
    draft_work_off(second.pk)
    assert fresh(first).result["days"] == fresh(second).result["days"]


def test_a_draft_that_waits_is_stopped_at_once(run):
    assert draft_stop(run=run).state == State.CANCELLED
    assert not draft_work_off(run.pk)


def test_a_worker_stops_when_it_is_asked_to(run, monkeypatch):
    """The coach presses Stop while the solver runs: the solver is told at its next look."""
    monkeypatch.setattr(draft_work, "LOOK_S", 0)

    def solve(request, told, should_stop):
        told(Progress(0.5, 10.0, 11.0))
        assert not should_stop()
        assert fresh(run).progress == {
            "seconds": 0.5,
            "best": 10.0,
            "bound": 11.0,
            "gap": pytest.approx(0.1),
            "clashing": False,
        }
        draft_stop(run=run)
        assert should_stop()
        return draft_week(request, told, should_stop)

    from periodization.draft import draft_week

    monkeypatch.setattr(draft_work, "draft_week", solve)
    draft_work_off(run.pk)
    assert fresh(run).state == State.CANCELLED


def test_a_lost_worker_is_found_and_the_draft_given_to_another(run, django_capture_on_commit_callbacks, settings):
    settings.CELERY_BROKER_URL = None
    DraftRun.objects.filter(pk=run.pk).update(state=State.RUNNING, attempt=1)
    silent(run, 5)
    assert draft_sweep(timezone.now()) == 0
    silent(run)
    with django_capture_on_commit_callbacks(execute=True):
        assert draft_sweep(timezone.now()) == 1
    assert (fresh(run).state, run.attempt) == (State.DONE, 2)


def test_a_worker_that_was_thought_lost_writes_nothing_any_more(run, monkeypatch):
    monkeypatch.setattr(draft_work, "LOOK_S", 0)

    def slow(request, told, should_stop):
        silent(run)
        draft_sweep(timezone.now())
        assert should_stop()
        return draft_work_off_again(request)

    from periodization.draft import draft_week as draft_work_off_again

    monkeypatch.setattr(draft_work, "draft_week", slow)
    draft_work_off(run.pk)
    assert (fresh(run).state, run.result) == (State.QUEUED, {})


def test_a_message_that_was_lost_is_sent_again(run, django_capture_on_commit_callbacks):
    DraftRun.objects.update(queued_at=timezone.now() - dt.timedelta(minutes=2))
    with django_capture_on_commit_callbacks(execute=True):
        assert draft_sweep(timezone.now()) == 1
    assert fresh(run).state == State.DONE


def test_a_draft_that_always_kills_its_worker_fails_in_words(run):
    DraftRun.objects.filter(pk=run.pk).update(state=State.RUNNING, attempt=ATTEMPTS)
    silent(run)
    draft_sweep(timezone.now())
    assert fresh(run).state == State.FAILED
    assert run.fault


def test_a_draft_that_was_to_be_stopped_is_not_begun_again(run):
    DraftRun.objects.filter(pk=run.pk).update(state=State.RUNNING, attempt=1, cancel_asked=True)
    silent(run)
    draft_sweep(timezone.now())
    assert fresh(run).state == State.CANCELLED


def test_a_lost_draft_is_stopped_at_once(run):
    DraftRun.objects.filter(pk=run.pk).update(state=State.RUNNING, attempt=1)
    silent(run)
    assert draft_stop(run=fresh(run)).state == State.CANCELLED


def test_a_fault_is_kept_and_raised(run, monkeypatch):
    monkeypatch.setattr(draft_work, "draft_week", lambda *args: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        draft_work_off(run.pk)
    assert fresh(run).state == State.FAILED


def test_an_exercise_put_away_since_fails_in_words(world, exercises):
    run = start(world, small_ask(include=(exercises.curl.pk,)))
    exercises.curl.archived_at = timezone.now()
    exercises.curl.save()
    draft_work_off(run.pk)
    assert fresh(run).state == State.FAILED
    assert str(exercises.curl.pk) in run.fault_words
    with translation.override("de"):
        assert run.fault_words.startswith("Der Auftrag ergibt keinen Sinn mehr")


def test_a_practice_has_three_drafts_at_work_at_most(world, exercises):
    for _ in range(3):
        start(world)
    with pytest.raises(TooMany):
        start(world)


def test_a_draft_becomes_an_ordinary_program_once(run, world, exercises):
    draft_work_off(run.pk)
    program = draft_make_program(run=run, author=world.coach)
    assert draft_make_program(run=run, author=world.coach) == program
    assert program.weekdays == [0, 3]
    (week,) = program.document["blocks"][0]["weeks"]
    written = [[(slot["exercise"], slot["sets"]) for slot in day["slots"]] for day in week["days"]]
    drafted = [[(slot["exercise"], slot["sets"]) for slot in day["slots"]] for day in fresh(run).result["days"]]
    assert written == drafted


def later(seconds):
    return timezone.now() + dt.timedelta(seconds=seconds)


def test_a_draft_that_was_just_asked_for_is_not_wondered_about(run):
    assert waits_for(run, timezone.now()) == ""


def test_a_draft_that_waits_long_waits_for_a_worker_or_for_its_turn(world, run):
    assert waits_for(run, later(TURN_S + 1)) == "worker"
    other = start(world)
    DraftRun.objects.filter(pk=other.pk).update(state=State.RUNNING, alive_at=timezone.now())
    assert waits_for(run, later(TURN_S + 1)) == "turn"
    silent(other)
    assert waits_for(run, later(TURN_S + 1)) == "worker"


def test_the_sweep_that_queues_a_draft_again_does_not_hide_that_nobody_takes_it(run):
    DraftRun.objects.filter(pk=run.pk).update(created_at=timezone.now() - dt.timedelta(minutes=5))
    DraftRun.objects.filter(pk=run.pk).update(queued_at=timezone.now())
    assert waits_for(fresh(run), timezone.now()) == "worker"


def test_a_draft_that_was_begun_waits_for_nobody(run):
    DraftRun.objects.filter(pk=run.pk).update(state=State.RUNNING, alive_at=timezone.now())
    assert waits_for(fresh(run), later(TURN_S + 1)) == ""


@pytest.mark.parametrize("state", [State.QUEUED, State.RUNNING])
def test_a_draft_is_not_forgotten_when_the_clock_is_put_back(run, state):
    ahead = timezone.now() + dt.timedelta(hours=1)
    DraftRun.objects.update(state=state, queued_at=ahead, started_at=ahead, alive_at=ahead)
    draft_sweep(timezone.now())
    assert fresh(run).state == State.QUEUED
    assert fresh(run).queued_at < ahead
