"""A decision changes the plan once, says what it changed, and can be taken back as far as nobody has trained it yet."""

import datetime as dt

import pytest
from django.utils import timezone

from coaching.models import Decision, Prompt, WeekSummary
from coaching.recompute import run
from coaching.services.conflict import Conflict
from coaching.services.decision import decision_accept, decision_refuse, decision_undo, digest
from programs.models import PlannedSession, PlannedSlot
from tests.coaching import factories as make
from tests.coaching.dump import dump
from tests.coaching.once import once

pytestmark = pytest.mark.django_db


def train(world, exercises):
    make.train(world.client, world.coach, exercises, weeks=12, fade=2, seed=3)
    run.work_off(world.client.pk)


made, copied, world, exercises = once(train)


@pytest.fixture
def prompt(world):
    """Last week's question about this week, none of whose sessions is begun."""
    found = Prompt.objects.get(client=world.client, week=make.monday(1), kind="deload")
    assert found.proposal["slots"]
    return found


def accept(prompt, coach, reason="Three bad weeks."):
    return decision_accept(prompt=prompt, coach=coach, reason=reason, seen=digest(prompt.proposal))


def slots_of(prompt):
    return PlannedSlot.objects.filter(pk__in=[one["slot"] for one in prompt.proposal["slots"]])


def test_accepting_writes_the_proposed_numbers_onto_the_plan(world, prompt):
    decision = accept(prompt, world.coach)
    for one in prompt.proposal["slots"]:
        slot = PlannedSlot.objects.select_related("session").get(pk=one["slot"])
        assert (slot.sets, slot.rir_min, slot.rir_max) == (one["sets"][1], one["rir_min"][1], one["rir_max"][1])
        assert slot.sets < one["sets"][0]
        assert slot.target_load_kg == one["load_kg"][1]
        assert slot.session.is_deload
    assert decision.changes
    assert decision.answer == "accept"


def test_the_worker_agrees_with_the_numbers_that_were_accepted(world, prompt):
    accept(prompt, world.coach)
    before = list(slots_of(prompt).order_by("pk").values("target_load_kg", "target_reps", "target_reason"))
    run.work_off(world.client.pk)
    assert list(slots_of(prompt).order_by("pk").values("target_load_kg", "target_reps", "target_reason")) == before


def test_planned_volume_of_the_week_falls_once_the_worker_has_run(world, prompt):
    this = WeekSummary.objects.get(client=world.client, week=make.monday())
    accept(prompt, world.coach)
    run.work_off(world.client.pk)
    after = WeekSummary.objects.get(pk=this.pk)
    assert after.volume["groups"]["chest"]["planned"] < this.volume["groups"]["chest"]["planned"]
    assert after.urgency < this.urgency


def test_an_answer_survives_a_rebuild_and_the_rows_are_the_same_again(world, prompt):
    accept(prompt, world.coach)
    run.work_off(world.client.pk)
    before = dump()
    run.rebuild(world.client.pk)
    assert dump() == before
    assert Decision.objects.get().prompt_id == prompt.pk


def test_refusing_changes_no_plan_and_closes_the_question(world, prompt):
    before = list(slots_of(prompt).order_by("pk").values())
    # On the week's Sunday the next question would stand there already.
    monday = dt.datetime.combine(make.monday(), dt.time(12), dt.UTC)
    run.work_off(world.client.pk, now=monday)
    urgency = WeekSummary.objects.get(client=world.client, week=make.monday()).urgency
    decision_refuse(prompt=prompt, coach=world.coach, reason="A hard week at work; next week is quiet.")
    run.work_off(world.client.pk, now=monday)
    assert list(slots_of(prompt).order_by("pk").values()) == before
    assert Prompt.objects.filter(pk=prompt.pk).exists()
    assert WeekSummary.objects.get(client=world.client, week=make.monday()).urgency == urgency - 30


def test_undo_puts_every_session_back_and_asks_again(world, prompt):
    before = list(slots_of(prompt).order_by("pk").values())
    decision = accept(prompt, world.coach)
    run.work_off(world.client.pk)
    decision_undo(decision=decision, now=timezone.now())
    run.work_off(world.client.pk)
    assert list(slots_of(prompt).order_by("pk").values()) == before
    assert not PlannedSession.objects.filter(is_deload=True).exists()
    again = Prompt.objects.get(pk=prompt.pk)
    assert again.proposal == prompt.proposal
    accept(again, world.coach)


def test_undo_leaves_a_session_that_was_begun_since_and_says_so(world, prompt):
    decision = accept(prompt, world.coach)
    first = PlannedSession.objects.get(pk=prompt.proposal["slots"][0]["session"])
    make.do_day(first, {"bench-press": 50})
    undone = decision_undo(decision=decision, now=timezone.now())
    kept = [one for one in undone.changes if not one["restored"]]
    assert {one["session"] for one in kept} == {first.pk}
    assert {one["why"] for one in kept} == {"begun"}
    first.refresh_from_db()
    assert first.is_deload
    assert PlannedSession.objects.filter(is_deload=True).count() == 1


def test_undo_leaves_a_slot_that_the_coach_rewrote_since(world, prompt):
    decision = accept(prompt, world.coach)
    slot = slots_of(prompt).first()
    slot.sets = 9
    slot.save()
    undone = decision_undo(decision=decision, now=timezone.now())
    assert [(one["slot"], one["why"]) for one in undone.changes if one["why"]] == [(slot.pk, "rewritten")]
    slot.refresh_from_db()
    assert slot.sets == 9


def test_a_session_begun_before_the_answer_is_left_as_it_is(world, prompt):
    first = PlannedSession.objects.get(pk=prompt.proposal["slots"][0]["session"])
    make.do_day(first, {"bench-press": 60})
    decision = accept(prompt, world.coach)
    assert first.pk not in {one["session"] for one in decision.changes}


def test_numbers_that_the_coach_has_not_seen_are_not_accepted(world, prompt):
    slots_of(prompt).update(sets=6)
    with pytest.raises(Conflict) as caught:
        accept(prompt, world.coach)
    assert caught.value.code == "changed"
    with pytest.raises(Conflict) as caught:
        decision_accept(prompt=prompt, coach=world.coach, reason="", seen="another")
    assert caught.value.code == "changed"
    assert not Decision.objects.exists()


def test_the_second_of_two_answers_is_told_who_was_first(world, prompt):
    accept(prompt, world.coach)
    with pytest.raises(Conflict, match="Carla has answered"):
        decision_refuse(prompt=prompt, coach=world.owner, reason="")


def test_a_question_that_no_longer_stands_cannot_be_answered(world, prompt):
    Prompt.objects.all().delete()
    with pytest.raises(Conflict) as caught:
        accept(prompt, world.coach)
    assert caught.value.code == "gone"


def test_undoing_twice_is_refused(world, prompt):
    decision = accept(prompt, world.coach)
    decision_undo(decision=decision, now=timezone.now())
    with pytest.raises(Conflict):
        decision_undo(decision=decision, now=timezone.now())
