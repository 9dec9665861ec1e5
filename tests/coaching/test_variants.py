"""What no load fits any more: the question, the ways out that are open to the client, and the plan afterwards."""

import datetime as dt

import pytest
from django.conf import settings
from django.db import connection
from django.test import Client as Browser
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from coaching.forms_answers import STAY, answer_form
from coaching.models import Prompt, WeekSummary
from coaching.recompute import run
from coaching.services.choice import Choice
from coaching.services.conflict import Conflict
from coaching.services.decision import decision_accept, decision_refuse, decision_undo, digest
from programs.models import ClientEquipment, ClientLimit, Exercise, ExerciseLink, PlannedSession, PlannedSlot
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db
THIS = make.monday()
SUNDAY = dt.datetime.combine(THIS + dt.timedelta(days=6), dt.time(12), dt.UTC)


def pulls(world, exercises, reps, *, weeks=3, ahead=4, load=0.0, rir=2.0):
    """Pull-ups twice a week, three sets of 8 to 12; all weeks before this one and this week's are done."""
    assignment = make.make_assignment(world.client, world.coach, make.monday(weeks))
    make.weigh(world.client, make.monday(weeks), 80.0)
    for week in range(weeks + 1 + ahead):
        for weekday in (0, 3):
            day = make.monday(weeks - week) + dt.timedelta(days=weekday)
            planned = make.make_day(assignment, day, [(exercises["pull-up"], 3)], week + 1)
            if week <= weeks:
                make.do_day(planned, {"pull-up": load}, reps=reps, rir=rir)
    run.work_off(world.client.pk, now=SUNDAY)
    return Prompt.objects.filter(client=world.client, kind="swap").order_by("week").last()


@pytest.fixture
def weak(world, exercises):
    """Five pull-ups where eight are the least, with nothing to take off; the library knows two easier variants."""
    for place, slug in enumerate(("assisted-pull-up", "curl")):
        ExerciseLink.objects.create(exercise=exercises["pull-up"], other=exercises[slug], kind="easier", position=place)
    return pulls(world, exercises, 5)


def options(prompt):
    """Return the ids that are offered, groups opened."""
    found = []
    for value, label in answer_form(prompt, seen="").fields["to_exercise"].choices:
        found += [one for one, _ in label] if isinstance(label, list | tuple) else [value]
    return found


def accept(prompt, world, **choice):
    return decision_accept(
        prompt=prompt, coach=world.coach, reason="", seen=digest(prompt.proposal), choice=Choice(**choice)
    )


def browser(user):
    made = Browser()
    made.force_login(user, backend=settings.AUTHENTICATION_BACKENDS[-1])
    return made


def test_under_the_floor_with_nothing_lighter_asks_for_an_easier_variant(weak, exercises):
    assert (weak.rule_id, weak.proposal["cause"]) == ("question.variant", "easier")
    assert weak.reasons[0]["params"] == {
        "exercise": str(exercises["pull-up"].pk), "count": 2, "fewest": 5, "bound": 8,
    }  # fmt: skip
    assert options(weak)[:3] == [exercises["assisted-pull-up"].pk, exercises["curl"].pk, STAY]


def test_what_is_closed_to_the_client_is_not_offered(weak, world, exercises):
    ClientLimit.objects.create(
        client=world.client, exercise=exercises["curl"], since=THIS - dt.timedelta(days=9), told_by=world.coach
    )
    assert exercises["curl"].pk not in options(weak)
    ClientEquipment.objects.create(client=world.client, equipment=exercises["pull-up"].equipment, told_by=world.coach)
    assert options(weak) == [STAY], "the rest is on equipment that this client has not"


def test_accepting_changes_the_plan_to_its_end_and_undo_brings_it_back(weak, world, exercises):
    listed = {one["slot"] for one in weak.proposal["slots"]}
    ahead = PlannedSlot.objects.filter(session__client=world.client, session__performed=None)
    assert listed < set(ahead.values_list("pk", flat=True))
    decision = accept(weak, world, to_exercise=exercises["assisted-pull-up"].pk, onward=True)
    assert set(ahead.values_list("exercise", flat=True)) == {exercises["assisted-pull-up"].pk}
    run.work_off(world.client.pk, now=SUNDAY)
    assert ahead.get(pk=min(listed)).target_reason["code"] == "first_time_assisted"
    decision_undo(decision=decision, now=timezone.now())
    assert set(ahead.values_list("exercise", flat=True)) == {exercises["pull-up"].pk}


def test_for_these_weeks_only_leaves_the_later_sessions(weak, world, exercises):
    accept(weak, world, to_exercise=exercises["assisted-pull-up"].pk)
    listed = {one["slot"] for one in weak.proposal["slots"]}
    changed = PlannedSlot.objects.filter(session__client=world.client, exercise=exercises["assisted-pull-up"])
    assert set(changed.values_list("pk", flat=True)) == listed


def test_a_smaller_range_keeps_the_exercise(weak, world, exercises):
    decision = accept(weak, world, smaller=True, onward=True)
    ahead = PlannedSlot.objects.filter(session__client=world.client, session__performed=None)
    assert set(ahead.values_list("exercise", "reps_min", "reps_max")) == {(exercises["pull-up"].pk, 5, 9)}
    page = browser(world.coach).get(reverse("decision", args=[decision.pk])).text
    assert "8–12 → 5–9" in page
    assert page.count("→") == page.count("8–12 → 5–9"), "what stays as it is has no arrow"
    decision_undo(decision=decision, now=timezone.now())
    assert set(ahead.values_list("reps_min", "reps_max")) == {(8, 12)}


@pytest.mark.parametrize("smaller", [True, False])
def test_a_range_of_sets_stays_one(weak, world, exercises, smaller):
    ahead = PlannedSlot.objects.filter(session__client=world.client, session__performed=None)
    ahead.update(sets_min=2)
    instead = None if smaller else exercises["assisted-pull-up"].pk
    accept(weak, world, smaller=smaller, to_exercise=instead, onward=True)
    assert set(ahead.values_list("sets_min", "sets")) == {(2, 3)}


def test_a_range_that_was_rewritten_since_is_not_overwritten(weak, world):
    PlannedSlot.objects.filter(pk=weak.proposal["slots"][0]["slot"]).update(reps_max=15)
    with pytest.raises(Conflict, match="changed since"):
        accept(weak, world, smaller=True)


def test_the_page_offers_both_and_takes_one(weak, world, exercises):
    page = browser(world.coach).get(reverse("prompt", args=[weak.pk]))
    for words in ("Easier variants of the library", "Stay, with a range of 5 to 9", "nothing lighter to take off"):
        assert words in page.text
    data = {"accept-seen": digest(weak.proposal), "accept-to_exercise": STAY, "accept-onward": "on"}
    assert browser(world.coach).post(reverse("prompt-accept", args=[weak.pk]), data).status_code == 302
    why = browser(world.coach).get(reverse("why", args=[world.client.pk, "prompt", weak.pk]))
    assert "question.variant" in why.text


def test_over_the_ceiling_with_no_load_to_add_asks_for_a_harder_variant(world, exercises):
    Exercise.objects.filter(pk=exercises["pull-up"].pk).update(load_kind="external")
    exercises["pull-up"].equipment.ladder = {"kind": "none"}
    exercises["pull-up"].equipment.save()
    ExerciseLink.objects.create(exercise=exercises["pull-up"], other=exercises["squat"], kind="harder")
    prompt = pulls(world, exercises, 25)
    assert (prompt.proposal["cause"], options(prompt)) == ("harder", [exercises["squat"].pk])


def test_a_no_is_not_asked_again_at_once_and_does_not_silence_pain(weak, world, exercises):
    decision_refuse(prompt=weak, coach=world.coach, reason="It will come.")
    session = PlannedSession.objects.filter(client=world.client, performed=None).earliest("date")
    make.report_pain(make.do_day(session, {"pull-up": 0.0}, reps=5), exercises["pull-up"], 8)
    make.request(world.client, session.date)
    run.work_off(world.client.pk, now=SUNDAY + dt.timedelta(days=7))
    causes = Prompt.objects.filter(client=world.client, kind="swap", week__gt=weak.week)
    assert [one.proposal["cause"] for one in causes] == ["pain"]


def test_it_counts_on_the_board_under_its_own_words(weak, world):
    codes = {one["code"] for one in WeekSummary.objects.get(client=world.client, week=weak.week).urgency_reasons}
    assert "prompt_open_variant" in codes
    assert "prompt_open_swap" not in codes


def test_a_rebuild_finds_the_same_question(weak, world):
    before = list(Prompt.objects.filter(client=world.client).order_by("pk").values())
    run.rebuild(world.client.pk, now=SUNDAY)
    assert list(Prompt.objects.filter(client=world.client).order_by("pk").values()) == before


def test_ways_out_of_many_cost_what_those_of_one_cost(weak, world, exercises):
    from coaching.reads.ways_out import ways_out

    prompts = list(Prompt.objects.filter(pk=weak.pk).select_related("client__user", "client__practice"))
    counts = []
    for many in (prompts, prompts * 30):
        with CaptureQueriesContext(connection) as found:
            ways_out(many)
        counts.append(len(found))
    assert counts[0] == counts[1] <= 13
