"""The weekly board: most urgent first with the reason in words, the right people, a fixed number of queries."""

import datetime as dt
import uuid

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from accounts.models import Client, Engagement, Invitation, User
from accounts.services.invitation import invitation_create
from coaching.models import Prompt, WeekSummary
from coaching.reads.prompts import open_prompts
from coaching.recompute import run
from coaching.recompute.calendar import WEEK
from coaching.services.decision import decision_refuse
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db
THIS = make.monday()
HOUR = dt.timedelta(hours=1)
VOLUME = {
    "groups": {
        "chest": {"planned": 8, "done": 3, "ahead": 0, "floor": 6, "ceiling": 10, "source": "chosen", "aimed": True}
    },
    "muscles": {},
    "heads": {},
    "running": True,
    "deload": False,
    "tally": {"hard": 3, "unknown_effort": 0, "easy": 0, "warm_up": 0},
}
KEPT = {
    "sessions_planned": 3,
    "sessions_done": 1,
    "sessions_due": 2,
    "sets_planned": 30,
    "sets_due": 20,
    "sets_done": 10,
    "extra_sets": 0,
    "effort_share": 0.5,
    "mean_rir_gap": -1.2,
    "effort_unknown": 2,
    "volume_share": 0.4,
}


def summary(client, week=THIS, urgency=0, parts=(), **fields):
    values = {"volume": VOLUME, "compliance": KEPT, "load": {"week": 0}, "inputs": {}, "rules": "x", "as_of": week}
    return WeekSummary.objects.create(
        client=client, week=week, urgency=urgency, urgency_reasons=list(parts), **(values | fields)
    )


def part(points, code="no_session_lately", state="watch", **more):
    return {"points": points, "code": code, "params": {}, "state": state, **more}


def page(browser, user, **query):
    browser.force_login(user)
    return browser.get(reverse("board"), query)


def names(response):
    return [str(row.client) for row in response.context["board"].rows]


@pytest.fixture
def several(world):
    """Three clients of `coach`: calm, urgent, and one whose week was not computed yet."""
    for name in ("anna", "bert"):
        client = Client.objects.create(
            practice=world.practice, user=User.objects.create_user(email=f"{name}@example.org", name=name.title())
        )
        Engagement.objects.create(coach=world.coach_membership, client=client, started_on=THIS - dt.timedelta(days=90))
    anna, bert = Client.objects.filter(user__name__in=("Anna", "Bert")).order_by("user__name")
    summary(anna, urgency=2, parts=[part(2)])
    summary(bert, urgency=50, parts=[part(50, "pain_over", "stop", subject_kind="client", subject="")])
    return anna, bert


def test_the_most_urgent_stand_first_and_those_without_numbers_last(client, world, several):
    response = page(client, world.coach)
    assert names(response) == ["Bert", "Anna", "Clemens"]
    assert "no numbers for this week" in response.content.decode()


def test_a_reason_is_said_in_words_beside_its_mark(client, world, several):
    html = page(client, world.coach).content.decode()
    assert '<span class="state" data-state="stop">stop</span>' in html
    assert "seek the advice of a licensed clinician" in html
    assert "1 of 3" in html
    assert "10 of 30" in html
    assert "1.2 RIR harder" in html
    assert "2 sets without RIR" in html


def test_a_coach_sees_only_the_clients_they_train_and_the_owner_all(client, world, several):
    assert "Cosima" not in names(page(client, world.coach))
    assert "Cosima" in names(page(client, world.owner))
    assert "Oskar" not in names(page(client, world.owner))


@pytest.mark.parametrize(("days", "there"), [(0, True), (28, True), (29, False)])
def test_who_left_four_weeks_ago_is_no_longer_among_the_owners_week(client, world, several, days, there):
    ended = world.practice.today() - dt.timedelta(days=days)
    world.client.engagements.update(started_on=ended - dt.timedelta(days=90), ended_on=ended)
    assert (str(world.client) in names(page(client, world.owner))) is there
    client.force_login(world.owner)
    assert str(world.client) in client.get(reverse("client-list")).text


def test_a_client_whom_nobody_has_trained_yet_is_on_the_owners_board(client, world, several):
    world.client.engagements.all().delete()
    assert str(world.client) in names(page(client, world.owner))


def test_who_has_nothing_planned_is_led_to_a_program_in_this_week_only(client, world, exercises):
    choose = f"{reverse('program-list')}?client={world.client.pk}"
    assert choose in page(client, world.coach).text
    assert choose not in page(client, world.coach, week=(THIS - dt.timedelta(days=7)).isoformat()).text
    assignment = make.make_assignment(world.client, world.coach, THIS)
    make.make_day(assignment, THIS + dt.timedelta(days=20), [])
    assert choose not in page(client, world.coach).text


def test_a_coach_who_trains_nobody_reads_how_to_begin_and_sees_no_sieves(client, world):
    Engagement.objects.all().delete()
    Invitation.objects.filter(invited_by=world.coach).delete()
    text = page(client, world.coach).text
    assert reverse("client-invite") in text
    assert "invitation is open" not in text
    assert 'role="search"' not in text
    inviter = world.coach.memberships.get()
    invitation_create(
        inviter=inviter, kind="client", email="new@example.org", name="Newt", base_url="http://testserver/"
    )
    assert "1 invitation is open" in page(client, world.coach).text
    assert 'role="search"' in page(client, world.coach, q="nobody of this name").text


def test_the_owner_can_sift_by_coach_and_a_coach_cannot(client, world, several):
    mine = page(client, world.owner, coach=world.colleague_membership.pk)
    assert names(mine) == ["Cosima"]
    assert "Cosima" not in names(page(client, world.coach, coach=world.colleague_membership.pk))


@pytest.fixture
def far_away(world, several, monkeypatch):
    """Monday morning with a coach in Auckland: Bert, in California, has Sunday, and Anna, in Kiritimati, Monday."""
    monkeypatch.setattr("django.utils.timezone.now", lambda: dt.datetime.combine(THIS, dt.time(19), dt.UTC) - 24 * HOUR)
    for name, zone in (("Carla", "Pacific/Auckland"), ("Bert", "America/Los_Angeles"), ("Anna", "Pacific/Kiritimati")):
        User.objects.filter(name=name).update(time_zone=zone)
    anna, bert = several
    WeekSummary.objects.filter(client=bert).update(week=THIS - WEEK)
    return anna, bert


def test_where_the_week_has_not_begun_the_row_tells_of_the_one_that_runs_there(client, world, far_away):
    response = page(client, world.coach)
    rows = {str(row.client): row for row in response.context["board"].rows}
    assert response.context["week"] == THIS
    assert names(response) == ["Bert", "Anna", "Clemens"], "most urgent first, whichever week it is there"
    assert rows["Bert"].still == THIS - dt.timedelta(days=1)
    assert (rows["Bert"].monday, rows["Bert"].points) == (THIS - WEEK, 50)
    assert (rows["Anna"].monday, rows["Anna"].still) == (THIS, None)
    assert reverse("why", args=[rows["Bert"].client.pk, "urgency", (THIS - WEEK).isoformat()]) in response.text
    assert names(page(client, world.coach, attention="on")) == ["Bert"]
    assert response.text.count("the week before, so far") == 2, "Bert, and Clemens, whose zone is UTC"


def test_an_earlier_week_of_the_board_is_the_same_week_for_everyone(client, world, far_away):
    response = page(client, world.coach, week=(THIS - WEEK).isoformat())
    assert {(row.monday, row.still) for row in response.context["board"].rows} == {(THIS - WEEK, None)}


def test_name_and_attention_sift_the_rows(client, world, several):
    assert names(page(client, world.coach, q="ann")) == ["Anna"]
    assert names(page(client, world.coach, attention="on")) == ["Bert"]
    assert "No client fits" in page(client, world.coach, q="nobody at all").content.decode()


def test_an_earlier_week_can_be_read_and_a_later_one_is_this_one(client, world, several):
    anna, _ = several
    summary(anna, week=make.monday(1), urgency=70, parts=[part(70)])
    assert names(page(client, world.coach, week=make.monday(1).isoformat()))[0] == "Anna"
    ahead = page(client, world.coach, week=(THIS + dt.timedelta(days=70)).isoformat())
    assert ahead.context["week"] == THIS
    assert page(client, world.coach, week="nonsense").context["week"] == THIS


def test_an_answered_question_is_not_asked_again_before_the_worker_has_run(client, world, exercises, on_monday):
    make.train(world.client, world.coach, exercises, weeks=12, fade=2, seed=3)
    run.work_off(world.client.pk)
    asked = "A deload prompt waits"
    assert asked in page(client, world.coach).content.decode()
    for prompt in open_prompts(make.monday(), timezone.now().date()):
        decision_refuse(prompt=prompt, coach=world.coach, reason="No.")
    assert asked not in page(client, world.coach).content.decode()


def test_a_question_stands_in_its_row_as_a_link_that_opens_under_it(client, world, exercises, on_monday):
    make.train(world.client, world.coach, exercises, weeks=12, fade=2, seed=3)
    run.work_off(world.client.pk)
    asked = Prompt.objects.get(client=world.client, week=make.monday(1), kind="deload")
    html = page(client, world.coach).content.decode()
    there = reverse("prompt", args=[asked.pk])
    assert f'href="{there}" hx-get="{there}" hx-target="#under-{asked.pk}"' in html
    assert f'<div id="under-{asked.pk}" data-holder></div>' in html


def test_opening_the_page_computes_nothing(client, world, several, monkeypatch):
    def fail(*args, **kwargs):
        raise AssertionError("computed on a page")

    monkeypatch.setattr(run, "work_off", fail)
    monkeypatch.setattr("coaching.recompute.compute.compute", fail)
    before = WeekSummary.objects.count()
    assert page(client, world.coach).status_code == 200
    assert WeekSummary.objects.count() == before


def fill(world, count):
    """Add `count` clients with two weeks of rows and a question in each."""
    start = User.objects.count()
    users = [User(email=f"c{n}@example.org", name=f"Client {n:03}") for n in range(start, start + count)]
    clients = Client.objects.bulk_create(
        Client(practice=world.practice, user=user) for user in User.objects.bulk_create(users)
    )
    Engagement.objects.bulk_create(
        Engagement(coach=world.coach_membership, client=one, started_on=THIS - dt.timedelta(days=60)) for one in clients
    )
    for n, one in enumerate(clients):
        for week in (THIS, make.monday(1)):
            parts = [part(6, subject_kind="exercise", subject="1"), part(n % 40)]
            summary(one, week=week, urgency=6 + n % 40, parts=parts)
            empty = {
                "last_date": THIS + dt.timedelta(days=7),
                "rule_id": "x",
                "rule_version": 1,
                "reasons": [],
                "proposal": {},
                "inputs": {},
            }
            Prompt.objects.create(id=uuid.uuid4(), client=one, week=week, kind="deload", **empty)


@pytest.mark.parametrize("who", ["coach", "owner"])
def test_at_most_eight_queries_for_24_clients_and_the_same_for_240(client, world, exercises, who):
    """Session, user, membership; coaches and views to sift by; clients with their number, weeks, questions, names."""
    counts = []
    for more in (23, 216):
        fill(world, more)
        client.force_login(getattr(world, who))
        with CaptureQueriesContext(connection) as seen:
            response = client.get(reverse("board"))
        assert response.status_code == 200
        counts.append(len(seen))
    assert counts[0] == counts[1]
    assert counts[0] <= 8, [q["sql"][:120] for q in seen.captured_queries]


def test_the_board_is_paged(client, world, exercises):
    fill(world, 30)
    first = page(client, world.coach)
    assert len(first.context["board"].rows) == 25
    assert "Page 1 of 2" in first.content.decode()
