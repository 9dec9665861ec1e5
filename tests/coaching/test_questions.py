"""Questions beside the deload, from the log to the plan and back."""

import datetime as dt
import uuid

import pytest
from django.conf import settings
from django.test import Client as Browser
from django.urls import reverse
from django.utils import timezone

from coaching.forms_answers import answer_form
from coaching.models import Decision, Prompt, WeekSummary
from coaching.recompute import run
from coaching.services.choice import Choice
from coaching.services.conflict import Conflict
from coaching.services.decision import decision_accept, decision_refuse, decision_undo, digest
from logbook.models import Comment
from programs.models import ExerciseLink, PlannedSlot
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db
THIS = make.monday()


def at(day):
    return dt.datetime.combine(day, dt.time(12), dt.UTC)


def browser(user):
    made = Browser()
    made.force_login(user, backend=settings.AUTHENTICATION_BACKENDS[-1])
    return made


def asked(client, kind, **about):
    return Prompt.objects.filter(client=client, kind=kind, **about).order_by("week").last()


@pytest.fixture
def hurting(world, exercises):
    """Pain over the limit in the curl, this week; curls are planned this week and next."""
    make.train(world.client, world.coach, exercises, weeks=3, ahead=3)
    session = make.begin(world.client, THIS)
    make.report_pain(session, exercises["curl"], 8)
    run.work_off(world.client.pk, now=at(THIS + dt.timedelta(days=1)))
    return world.client


@pytest.fixture
def silent(world, exercises):
    """Trained until three weeks ago; sessions are planned."""
    make.train(world.client, world.coach, exercises, weeks=3, ahead=6, today=THIS - dt.timedelta(days=21))
    make.request(world.client, THIS - dt.timedelta(days=30))
    run.work_off(world.client.pk)
    return world.client


@pytest.fixture
def roomy(world, exercises):
    """All kept, effort as prescribed, and far under the range; as of Monday, when last week's question is open."""
    make.train(world.client, world.coach, exercises, weeks=2, ahead=3)
    run.work_off(world.client.pk, now=at(THIS))
    return world.client


def test_pain_asks_for_another_exercise_at_once_and_only_in_that_week(hurting, exercises):
    prompt = asked(hurting, "swap")
    assert (prompt.week, prompt.proposal["exercise"]) == (THIS, exercises["curl"].pk)
    run.work_off(hurting.pk, now=at(THIS + dt.timedelta(days=8)))
    assert Prompt.objects.filter(client=hurting, kind="swap").count() == 1


def test_accepting_exchanges_the_exercise_in_open_sessions_and_undo_brings_it_back(hurting, world, exercises):
    prompt = asked(hurting, "swap")
    rows = [one["slot"] for one in prompt.proposal["slots"]]
    instead = exercises["lateral-raise"].pk
    decision = decision_accept(
        prompt=prompt, coach=world.coach, reason="", seen=digest(prompt.proposal), choice=Choice(to_exercise=instead)
    )
    assert set(PlannedSlot.objects.filter(pk__in=rows).values_list("exercise", flat=True)) == {instead}
    assert not PlannedSlot.objects.filter(pk__in=rows).exclude(target_load_kg=None).exists()
    decision_undo(decision=decision, now=timezone.now())
    assert set(PlannedSlot.objects.filter(pk__in=rows).values_list("exercise", flat=True)) == {exercises["curl"].pk}


def test_the_page_offers_listed_substitutes_and_refuses_any_other(hurting, world, exercises):
    ExerciseLink.objects.create(exercise=exercises["curl"], other=exercises["pull-up"], kind="substitute")
    prompt = asked(hurting, "swap")
    page = browser(world.coach).get(reverse("prompt", args=[prompt.pk]))
    assert exercises["pull-up"].name in page.text
    accept = reverse("prompt-accept", args=[prompt.pk])
    data = {"accept-seen": digest(prompt.proposal), "accept-to_exercise": exercises["squat"].pk}
    assert browser(world.coach).post(accept, data).status_code == 422
    assert not Decision.objects.exists()
    response = browser(world.coach).post(accept, data | {"accept-to_exercise": exercises["pull-up"].pk})
    assert response.status_code == 302


def test_what_pain_has_stopped_too_is_no_way_out(hurting, exercises):
    ExerciseLink.objects.create(exercise=exercises["curl"], other=exercises["pull-up"], kind="substitute")
    assert exercises["pull-up"].pk in ways_out(hurting, exercises["curl"])
    make.report_pain(hurting.sessions.get(date=THIS), exercises["pull-up"], 7)
    make.request(hurting, THIS)
    run.work_off(hurting.pk, now=at(THIS + dt.timedelta(days=1)))
    assert Prompt.objects.filter(client=hurting, kind="swap").count() == 2
    assert exercises["pull-up"].pk not in ways_out(hurting, exercises["curl"])


def ways_out(client, exercise):
    """Return the ids that the question about this exercise offers instead."""
    prompt = Prompt.objects.get(client=client, kind="swap", proposal__exercise=exercise.pk)
    return {pk for pk, _ in answer_form(prompt, seen="").fields["to_exercise"].choices}


def test_silence_proposes_a_word_and_accepting_writes_it(silent, world):
    prompt = asked(silent, "contact")
    accept = reverse("prompt-accept", args=[prompt.pk])
    data = {"accept-seen": digest(prompt.proposal), "accept-text": "Are you well?"}
    assert browser(world.coach).post(accept, data).status_code == 302
    comment = Comment.objects.get(client=silent)
    assert (comment.text, comment.author) == ("Are you well?", world.coach)
    decision_undo(decision=Decision.objects.get(), now=timezone.now())
    comment.refresh_from_db()
    assert comment.text == ""


def test_a_coach_who_answered_is_not_asked_the_same_again_at_once(silent, world):
    prompt = asked(silent, "contact")
    decision_refuse(prompt=prompt, coach=world.coach, reason="On holiday.")
    run.work_off(silent.pk, now=at(THIS + dt.timedelta(days=7)))
    assert asked(silent, "contact", week__gt=prompt.week) is None
    # A rebuild finds the answered question again: its decision must not hang in the air.
    run.rebuild(silent.pk)
    assert Prompt.objects.filter(pk=prompt.pk).exists()


def weeks_of_progress(client):
    rows = Prompt.objects.filter(client=client, kind="progress").order_by("week")
    return [(THIS - week).days // 7 for week in rows.values_list("week", flat=True)]


@pytest.mark.parametrize(("answer", "asked_again"), [("accept", [3]), ("refuse", [])])
def test_more_sets_wait_for_two_kept_weeks_and_longer_after_a_no(world, exercises, answer, asked_again):
    make.train(world.client, world.coach, exercises, weeks=7, ahead=2)
    run.work_off(world.client.pk)
    assert weeks_of_progress(world.client) == [6, 5, 4, 3], "one kept week is not enough, and then a deload is due"
    Decision.objects.create(
        prompt_id=uuid.uuid4(),
        client=world.client,
        coach=world.coach,
        kind="progress",
        week=make.monday(7),
        answer=answer,
        proposal={},
        decided_at=timezone.now(),
    )
    run.rebuild(world.client.pk)
    assert weeks_of_progress(world.client) == asked_again


def test_more_sets_are_proposed_where_there_is_room_and_written_one_a_slot(roomy, world):
    prompt = asked(roomy, "progress")
    chosen = prompt.proposal["slots"][0]
    before = PlannedSlot.objects.get(pk=chosen["slot"]).sets
    decision_accept(
        prompt=prompt,
        coach=world.coach,
        reason="",
        seen=digest(prompt.proposal),
        choice=Choice(slots=[chosen["slot"]]),
    )
    assert PlannedSlot.objects.get(pk=chosen["slot"]).sets == before + 1
    for one in prompt.proposal["slots"][1:]:
        assert PlannedSlot.objects.get(pk=one["slot"]).sets == one["sets"][0]
    assert not Decision.objects.get().changes[1:]


def test_a_decision_can_be_taken_back_within_a_week_and_not_later(roomy, world):
    prompt = asked(roomy, "progress")
    decision = decision_accept(prompt=prompt, coach=world.coach, reason="", seen=digest(prompt.proposal))
    with pytest.raises(Conflict, match="within a week"):
        decision_undo(decision=decision, now=timezone.now() + dt.timedelta(days=8))
    decision_undo(decision=decision, now=timezone.now() + dt.timedelta(days=6))


def test_open_questions_count_in_the_boards_sum_and_answered_ones_do_not(roomy, world):
    week = WeekSummary.objects.get(client=roomy, week=THIS)
    assert "prompt_open_progress" in {part["code"] for part in week.urgency_reasons}
    prompt = asked(roomy, "progress")
    decision_refuse(prompt=prompt, coach=world.coach, reason="Enough for now.")
    run.work_off(roomy.pk, now=at(THIS))
    week.refresh_from_db()
    assert "prompt_open_progress" not in {part["code"] for part in week.urgency_reasons}


def test_a_question_that_is_asked_again_counts_once(world, exercises):
    """Nothing was logged for weeks: each Sunday asks for a word, while last week's question waits to the same day."""
    assignment = make.make_assignment(world.client, world.coach, make.monday(5))
    for week in range(5, -3, -1):
        planned = make.make_day(assignment, make.monday(week), [(exercises["squat"], 3)], 6 - week)
        if week > 3:
            make.do_day(planned, {"squat": 80.0})
    sunday = THIS + dt.timedelta(days=6)
    run.work_off(world.client.pk, now=at(sunday))
    waiting = Prompt.objects.filter(client=world.client, kind="contact", last_date__gte=sunday)
    assert waiting.count() == 2
    week = WeekSummary.objects.get(client=world.client, week=THIS)
    assert [part["code"] for part in week.urgency_reasons].count("prompt_open_contact") == 1


def test_an_answer_under_the_row_comes_back_with_its_undo(roomy, world):
    prompt = asked(roomy, "progress")
    slots = [one["slot"] for one in prompt.proposal["slots"]]
    under = {"HTTP_HX_REQUEST": "true"}
    coach = browser(world.coach)
    assert "data-accept" in coach.get(reverse("prompt", args=[prompt.pk]), **under).text
    data = {"accept-seen": digest(prompt.proposal), "accept-slots": slots}
    answered = coach.post(reverse("prompt-accept", args=[prompt.pk]), data, **under)
    assert answered.status_code == 200
    undo = reverse("decision-undo", args=[Decision.objects.get().pk])
    assert undo in answered.text
    assert "<html" not in answered.text
    coach.post(undo, **under)
    assert Decision.objects.get().undone_at is not None


def test_a_stranger_sees_no_question(roomy, world):
    prompt = asked(roomy, "progress")
    assert browser(world.colleague).get(reverse("prompt", args=[prompt.pk])).status_code == 404
