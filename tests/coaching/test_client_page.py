"""The client page: plan beside log, numbers that can be asked why, and answers that change the plan."""

import datetime as dt
import uuid

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from coaching.models import Decision, FlagRow, StrengthPoint, WeekSummary
from coaching.reads.prompts import open_prompts
from coaching.recompute import run
from coaching.services.decision import digest
from logbook.models import SetLog
from programs.models import Assignment, PlannedSession, PlannedSlot
from tests.coaching import factories as make
from tests.coaching.once import once

pytestmark = pytest.mark.django_db


def train(world, exercises):
    make.train(world.client, world.coach, exercises, weeks=12, fade=2, seed=3)
    session = world.client.sessions.order_by("-date").first()
    make.report_pain(session, exercises["curl"], 7)
    run.work_off(world.client.pk)


made, copied, world, exercises = once(train)


@pytest.fixture
def trained(world, client):
    client.force_login(world.coach)
    return world.client


@pytest.fixture
def prompt(trained, on_monday):
    """Last week's question about this one, on this week's Monday: by Saturday its last session lies behind."""
    return open_prompts(make.monday(), timezone.now().date()).filter(client=trained, kind="deload").last()


def text(response):
    return response.content.decode()


def page(client, trained, **query):
    return client.get(reverse("client-page", args=[trained.pk]), query)


def test_plan_and_done_stand_side_by_side(client, trained):
    html = text(page(client, trained, week=make.monday(3).isoformat()))
    assert "4 × 8–12 @ 1–3 RIR" in html
    assert "60&nbsp;kg × " in html
    assert "each side" in html


def test_loads_are_shown_in_the_readers_unit(client, trained, world):
    world.coach.load_unit = "lb"
    world.coach.save()
    assert "132.3&nbsp;lb" in text(page(client, trained, week=make.monday(3).isoformat()))


def test_a_stop_for_pain_is_shown_with_the_caution_and_what_clears_it(client, trained):
    html = text(page(client, trained))
    assert "Leave that out and seek the advice of a licensed clinician" in html
    assert "Clears when a licensed clinician has advised" in html


def test_pain_at_one_site_is_one_flag_that_names_its_exercises(client, trained, exercises):
    session = trained.sessions.order_by("-date").first()
    make.report_pain(session, exercises["squat"], 4)
    make.request(trained, session.date)
    run.work_off(trained.pk)
    flag = FlagRow.objects.get(client=trained, week=make.monday(), rule_id="pain.report")
    assert (flag.subject_kind, flag.subject, len(flag.inputs["evidence"])) == ("site", "elbow", 2)
    html = text(page(client, trained))
    assert f"<b>Elbow:</b> Pain of 7 of 10 was reported with {exercises['curl'].name}." in html
    why = text(client.get(reverse("why-flag", args=[flag.pk])))
    assert f">{exercises['squat'].name}</data>" in why
    board = text(client.get(reverse("board"), {"week": make.monday().isoformat()}))
    assert f"reported with {exercises['curl'].name}" in board


def test_every_number_can_be_asked_why(client, trained, exercises):
    week = WeekSummary.objects.get(client=trained, week=make.monday(3))
    volume = text(client.get(reverse("why", args=[trained.pk, "volume", f"{week.week.isoformat()}/chest"])))
    assert "Barbell bench press" in volume
    assert "<dt>hard sets done</dt>" in volume
    assert "Publications: 4 opinions, from 4 to 20 sets and more" in volume
    assert "the default for training status and priority" in volume
    point = StrengthPoint.objects.filter(client=trained, exercise=exercises["pull-up"]).first()
    strength = text(
        client.get(reverse("why", args=[trained.pk, "strength", f"{point.session_id}/{point.exercise_id}"]))
    )
    assert '>85\u00a0kg</data> <span class="quiet">= 80 + 5<' in strength
    assert "Epley 1985" in strength
    slot = PlannedSlot.objects.filter(session__client=trained, target_load_kg__isnull=False).last()
    assert "The sets behind it" in text(client.get(reverse("why", args=[trained.pk, "target", slot.pk])))


def test_a_flag_names_the_entries_it_rests_on(client, trained):
    for flag in FlagRow.objects.filter(client=trained, week=make.monday(1)):
        html = text(client.get(reverse("why-flag", args=[flag.pk])))
        assert "<td><data" in html, flag.rule_id
        assert flag.rule_id in html


def test_accepting_on_the_page_changes_the_plan_and_undo_brings_it_back(client, trained, prompt):
    html = text(page(client, trained))
    seen = digest(prompt.proposal)
    assert f'value="{seen}"' in html
    answer = {"accept-seen": seen, "accept-reason": "Three bad weeks."}
    response = client.post(reverse("prompt-accept", args=[prompt.pk]), answer, follow=True)
    assert "Accepted: 3 sessions changed." in text(response)
    assert "Three bad weeks." in text(response)
    assert PlannedSession.objects.filter(client=trained, is_deload=True).count() == 3
    decision = Decision.objects.get()
    response = client.post(reverse("decision-undo", args=[decision.pk]), follow=True)
    assert "Taken back: the plan is as it was." in text(response)
    assert not PlannedSession.objects.filter(is_deload=True).exists()


def test_refusing_needs_a_reason_and_keeps_what_was_typed(client, trained, prompt):
    response = client.post(reverse("prompt-refuse", args=[prompt.pk]), {"refuse-reason": " "})
    assert response.status_code == 422
    assert "Say in a few words why not" in text(response)
    response = client.post(reverse("prompt-refuse", args=[prompt.pk]), {"refuse-reason": "Next week."}, follow=True)
    assert "the plan stays as it is" in text(response)
    assert "Next week." in text(client.get(reverse("client-decisions", args=[trained.pk])))


def test_accepting_old_numbers_is_refused_and_the_reason_typed_is_kept(client, trained, prompt):
    answer = {"accept-seen": "0123456789abcdef", "accept-reason": "Tired."}
    response = client.post(reverse("prompt-accept", args=[prompt.pk]), answer)
    assert response.status_code == 409
    assert "Look at the new numbers first" in text(response)
    assert 'value="Tired."' in text(response)
    assert f'value="{digest(prompt.proposal)}"' in text(response)


def test_the_second_coach_is_told_that_the_first_has_answered(client, trained, prompt, world):
    client.post(reverse("prompt-refuse", args=[prompt.pk]), {"refuse-reason": "Next week."})
    client.force_login(world.owner)
    answer = {"accept-seen": digest(prompt.proposal), "accept-reason": ""}
    response = client.post(reverse("prompt-accept", args=[prompt.pk]), answer)
    assert response.status_code == 409
    assert "Carla has answered this prompt already: refused." in text(response)


def test_a_session_begun_before_the_answer_is_said_to_stay_as_it_is(client, trained, prompt):
    """What the page promises to change is what accepting changes."""
    slots = prompt.proposal["slots"]
    first = min(slots, key=lambda one: one["date"])
    make.begin(trained, make.monday(), PlannedSession.objects.get(pk=first["session"]))
    left = [one for one in slots if one["session"] != first["session"]]
    before, after = (sum(one["sets"][end] for one in left) for end in (0, 1))
    html = text(page(client, trained))
    assert f"{before} sets become {after}" in html
    assert html.count("begun already: stays as it is") == 1
    answer = {"accept-seen": digest(prompt.proposal), "accept-reason": ""}
    html = text(client.post(reverse("prompt-accept", args=[prompt.pk]), answer, follow=True))
    assert "Accepted: 2 sessions changed." in html
    assert html.count("begun already: stays as it is") == 1


def test_a_refused_proposal_is_shown_whole(client, trained, prompt):
    for key in {one["session"] for one in prompt.proposal["slots"]}:
        make.begin(trained, make.monday(), PlannedSession.objects.get(pk=key))
    client.post(reverse("prompt-refuse", args=[prompt.pk]), {"refuse-reason": "Next week."})
    html = text(client.get(reverse("decision", args=[Decision.objects.get().pk])))
    assert "begun already" not in html
    assert "Barbell bench press" in html


def test_loads_of_the_body_are_words(client, trained):
    html = text(page(client, trained, week=make.monday(3).isoformat()))
    assert "body weight + 5&nbsp;kg × " in html


def test_the_program_of_today_is_named_beside_the_one_that_follows_it(client, trained):
    now = Assignment.objects.filter(client=trained).first()
    next_monday = make.monday() + dt.timedelta(days=7)
    now.status, now.ended_on = "ended", next_monday - dt.timedelta(days=1)
    now.save()
    values = {"program_version": 1, "weekdays": [0], "created_by": now.created_by}
    Assignment.objects.create(client=trained, name="Next block", starts_on=next_monday, **values)
    lede = text(page(client, trained)).split('class="lede"')[1].split("</p>")[0]
    assert lede.index(f"{now.name}</a> until") < lede.index("Next block</a> from")


def test_a_load_that_looks_like_a_slip_is_named_with_the_way_to_its_session(client, trained):
    assert "like a slip" not in text(page(client, trained))
    row = SetLog.objects.filter(client=trained, warm_up=False, exercise__load_kind="external").latest("performed_at")
    SetLog.objects.filter(pk=row.pk).update(load=row.load * 10, load_kg=row.load_kg * 10)
    html = text(page(client, trained))
    line = html.split("1 load looks like a slip:")[1].split("</p>")[0]
    assert f'href="{reverse("performed-session", args=[row.session_id])}"' in line
    assert row.exercise.name in line
    SetLog.objects.filter(pk=row.pk).update(confirmed=True)
    assert "like a slip" not in text(page(client, trained))


def test_a_client_without_any_log_has_a_page(client, world):
    client.force_login(world.colleague)
    html = text(page(client, world.other_client))
    assert "There are no numbers for this week yet." in html
    assert "Nothing was decided yet." in text(client.get(reverse("client-decisions", args=[world.other_client.pk])))


def count(client, trained):
    with CaptureQueriesContext(connection) as seen:
        assert page(client, trained).status_code == 200
    return [q["sql"][:100] for q in seen.captured_queries]


def test_the_page_costs_the_same_after_years(client, trained, world):
    """The door, the week, its plan and log, what was said; whatever the history."""
    few = count(client, trained)
    row = WeekSummary.objects.filter(client=trained).first()
    for n in range(60):
        row.pk, row.week = None, make.monday(40 + n)
        row.save()
    many = count(client, trained)
    assert len(many) == len(few)
    assert len(many) <= 22, many


def test_decisions_are_paged(client, trained, world):
    answer = {"client": trained, "coach": world.coach, "kind": "deload", "answer": "refuse", "proposal": {}}
    url = reverse("client-decisions", args=[trained.pk])
    Decision.objects.create(prompt_id=uuid.uuid4(), week=make.monday(40), **answer)
    with CaptureQueriesContext(connection) as few:
        client.get(url)
    for n in range(30):
        Decision.objects.create(prompt_id=uuid.uuid4(), week=make.monday(n), **answer)
    with CaptureQueriesContext(connection) as many:
        html = text(client.get(url))
    assert "Page 1 of 2" in html
    assert len(many) == len(few)
