"""When the coach is asked: once about the same days, at once for new pain, and not again right after a no."""

import datetime as dt
from uuid import uuid4

import pytest

from coaching.models import Decision, Prompt
from coaching.reads.prompts import open_prompts
from coaching.recompute import run
from coaching.services.decision import decision_accept, decision_refuse, digest
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db
THIS = make.monday()


def at(day: dt.date) -> dt.datetime:
    return dt.datetime.combine(day, dt.time(12), dt.UTC)


@pytest.fixture
def due(world, exercises):
    """Eight good weeks without a reduced one, and four more planned: due by the calendar only."""
    make.train(world.client, world.coach, exercises, weeks=8, ahead=4)
    run.work_off(world.client.pk, now=at(THIS + dt.timedelta(days=1)))
    return world.client


def kinds(client):
    return {prompt.week: prompt.inputs["kind"] for prompt in Prompt.objects.filter(client=client, kind="deload")}


def test_while_a_week_runs_last_weeks_question_about_it_is_enough(due):
    found = kinds(due)
    assert found[make.monday(1)] == "due"
    assert THIS not in found


def test_on_its_last_day_the_week_asks_about_the_next(due):
    run.work_off(due.pk, now=at(THIS + dt.timedelta(days=6)))
    assert kinds(due)[THIS] == "due"


def test_new_pain_does_not_wait_for_the_weeks_end(due, exercises):
    session = make.begin(due, THIS)
    make.report_pain(session, exercises["curl"], 8)
    make.request(due, THIS)
    run.work_off(due.pk, now=at(THIS + dt.timedelta(days=1)))
    assert kinds(due)[THIS] == "pain"


def test_pain_for_which_a_deload_was_accepted_is_not_asked_about_again_while_it_runs(due, world, exercises):
    session = due.sessions.filter(date__gte=make.monday(1), date__lt=THIS).latest("date")
    make.report_pain(session, exercises["bench-press"], 8)
    make.request(due, make.monday(1))
    run.work_off(due.pk, now=at(THIS + dt.timedelta(days=1)))
    prompt = Prompt.objects.get(client=due, week=make.monday(1), kind="deload")
    assert prompt.inputs["kind"] == "pain"
    decision_accept(prompt=prompt, coach=world.coach, reason="", seen=digest(prompt.proposal))
    run.work_off(due.pk, now=at(THIS + dt.timedelta(days=1)))
    assert THIS not in kinds(due)


def test_after_a_no_to_a_question_of_the_calendar_it_rests_for_two_weeks(due, world):
    prompt = Prompt.objects.get(client=due, week=make.monday(1), kind="deload")
    decision_refuse(prompt=prompt, coach=world.coach, reason="A test week is coming.")
    run.work_off(due.pk, now=at(THIS + dt.timedelta(days=20)))
    found = kinds(due)
    assert not {THIS, THIS + dt.timedelta(days=7)} & set(found)


def test_a_week_that_is_reduced_already_is_not_asked_about(due, world):
    prompt = Prompt.objects.get(client=due, week=make.monday(1), kind="deload")
    decision_accept(prompt=prompt, coach=world.coach, reason="", seen=digest(prompt.proposal))
    run.work_off(due.pk, now=at(THIS + dt.timedelta(days=1)))
    assert make.monday(1) not in kinds(due)


def test_without_a_plan_for_the_next_week_there_is_nothing_to_ask(world, exercises):
    make.train(world.client, world.coach, exercises, weeks=8, ahead=0)
    run.work_off(world.client.pk, now=at(THIS + dt.timedelta(days=1)))
    assert make.monday(1) not in kinds(world.client)


def test_the_proposal_lowers_sets_and_load_and_raises_rir_for_every_open_slot(due):
    proposal = Prompt.objects.get(client=due, week=make.monday(1), kind="deload").proposal
    assert proposal["week"] == THIS.isoformat()
    assert len(proposal["slots"]) == 9
    for one in proposal["slots"]:
        assert 1 <= one["sets"][1] < one["sets"][0]
        assert (one["rir_min"][1], one["rir_max"][1]) == (one["rir_min"][0] + 2, one["rir_max"][0] + 2)
        assert one["load_kg"][1] <= one["load_kg"][0]


def test_rows_of_a_running_week_do_not_depend_on_when_it_was_computed_before(due):
    """Asked on Sunday, looked at again on Sunday: the same as computing it for the first time then."""
    sunday = at(THIS + dt.timedelta(days=6))
    run.work_off(due.pk, now=sunday)
    first = list(Prompt.objects.order_by("id").values())
    run.rebuild(due.pk, now=sunday)
    assert list(Prompt.objects.order_by("id").values()) == first


def asked(client, week, kind, **proposal):
    empty = {"rule_id": "x", "rule_version": 1, "reasons": [], "inputs": {}}
    last = THIS + dt.timedelta(days=6)
    return Prompt.objects.create(
        id=uuid4(), client=client, week=week, kind=kind, last_date=last, proposal=proposal, **empty
    )


def test_who_answers_this_weeks_question_is_not_asked_last_weeks_again(world):
    asked(world.client, make.monday(1), "contact")
    newer = asked(world.client, THIS, "contact")
    assert list(open_prompts(THIS, THIS)) == [newer]
    answer = {"kind": "contact", "week": THIS, "answer": "refuse", "proposal": {}}
    Decision.objects.create(prompt_id=newer.pk, client=world.client, coach=world.coach, **answer)
    assert list(open_prompts(THIS, THIS)) == []


def test_questions_about_two_exercises_or_two_clients_do_not_stand_for_each_other(world):
    one, other = (asked(world.client, make.monday(n), "swap", exercise=n) for n in (1, 0))
    theirs = asked(world.other_client, make.monday(1), "contact")
    asked(world.client, THIS, "contact")
    assert {one, other, theirs} < set(open_prompts(THIS, THIS))


def test_last_weeks_question_stands_on_the_board_of_its_own_week(world):
    older = asked(world.client, make.monday(1), "contact")
    asked(world.client, THIS, "contact")
    assert list(open_prompts(make.monday(1), make.monday(1))) == [older]
