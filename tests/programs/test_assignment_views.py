"""The pages that hand a program out, and show one client's copy."""

import datetime as dt

import pytest
from django.urls import reverse

from accounts.models import AuditEntry, User
from programs.models import Assignment, Fitting
from programs.services.assignment_make import program_assign
from tests.conftest import make_client
from tests.programs.factories import make_library, make_program

MONDAY = dt.date(2026, 11, 30)
WHEN = {"starts_on": "2026-11-30", "weekday_0": 0, "weekday_1": 3}


@pytest.fixture
def program(world):
    return make_program(world, make_library(), weeks=2)


@pytest.fixture
def assignment(world, program):
    known = {"starts_on": MONDAY, "weekdays": [0, 3], "assigned_by": world.coach}
    return program_assign(program=program, clients=[world.client], **known)[0]


def address(program):
    return reverse("program-assign", args=[program.pk])


def test_the_page_proposes_a_monday_and_weekdays_and_shows_the_dates(client, world, program):
    client.force_login(world.coach)
    text = client.get(address(program)).content.decode()
    assert "Clemens" in text
    assert "Cosima" not in text
    assert text.count('<span class="date">') == 4


def test_many_clients_are_served_at_once(client, world, program):
    others = [make_client(world.practice, f"celia{n}", world.coach_membership) for n in range(3)]
    client.force_login(world.coach)
    ids = [one.pk for one in (world.client, *others)]
    fitting = client.post(address(program), {**WHEN, "client": ids})
    assert fitting.url == reverse("fitting", args=[Fitting.objects.get().pk])
    assert not Assignment.objects.exists()
    assert client.post(f"{fitting.url}assign/").url == fitting.url
    said = client.get(fitting.url).text  # what was made, client by client
    assert "4 clients have this program now." in said
    assert all(reverse("assignment-detail", args=[one.pk]) in said for one in Assignment.objects.all())
    assert sorted(Assignment.objects.values_list("client", flat=True)) == sorted(ids)
    assert set(Assignment.objects.values_list("created_by", flat=True)) == {world.coach.pk}


def test_a_client_is_carried_from_their_page_through_the_choice_to_the_fitting(client, world, program):
    client.force_login(world.coach)
    chosen = f"?client={world.client.pk}"
    assert f'href="{reverse("program-list")}{chosen}"' in client.get(f"/clients/{world.client.pk}/").text
    programs = client.get(reverse("program-list") + chosen)
    assert "Choose a program for Clemens" in programs.text
    assert f'href="{address(program)}{chosen}"' in programs.text
    assert f'name="client" value="{world.client.pk}"' in programs.text  # a search keeps the client
    page = client.get(address(program) + chosen)
    assert [one for one, _running in page.context["chosen"]] == [world.client]
    fitting = client.post(address(program) + chosen, {**WHEN, "client": world.client.pk})
    assert Fitting.objects.get().clients.get() == world.client
    assert "Clemens" in client.get(fitting.url).text


def test_a_program_is_chosen_for_nobody_elses_client(client, world, program):
    client.force_login(world.coach)
    for stranger in (world.other_client, world.outside_client):
        assert client.get(reverse("program-list"), {"client": stranger.pk}).status_code == 404
    assert client.get(reverse("program-list"), {"client": "x"}).status_code == 200


def test_someone_elses_client_cannot_be_chosen(client, world, program):
    client.force_login(world.coach)
    reply = client.post(address(program), {**WHEN, "client": [world.other_client.pk, world.outside_client.pk]})
    assert reply.status_code == 422
    assert not Fitting.objects.exists()


def test_a_colleague_hands_the_program_to_their_own_client(client, world, program):
    client.force_login(world.colleague)
    fitting = client.post(address(program), {**WHEN, "client": world.other_client.pk})
    client.post(f"{fitting.url}assign/")
    assert Assignment.objects.get().client == world.other_client


def test_searching_keeps_who_is_ticked_and_what_was_set(client, world, program):
    make_client(world.practice, "celia", world.coach_membership)
    client.force_login(world.coach)
    query = {**WHEN, "starts_on": "2026-12-09", "client": world.client.pk, "q": "celia"}
    text = client.post(address(program), {**query, "look": "yes"}).content.decode()
    assert client.get(address(program), query).status_code == 200
    assert f'value="{world.client.pk}" id="client-{world.client.pk}" checked' in text
    assert "Celia" in text
    assert "2026-12-09" in text
    assert "come in another order" in text
    assert not Assignment.objects.exists()
    assert not AuditEntry.objects.filter(kind="changed").exists()


def test_a_client_with_a_running_program_is_named_before_anything_is_made(client, world, program, assignment):
    client.force_login(world.coach)
    ends = client.get(address(program), {**WHEN, "client": world.client.pk, "end_running": "on"}).content.decode()
    assert "This ends on the day before" in ends
    both = client.get(address(program), {**WHEN, "client": world.client.pk}).content.decode()
    assert "They would follow this as well" in both
    for text in (ends, both):
        assert reverse("assignment-detail", args=[assignment.pk]) in text


@pytest.mark.parametrize(
    "wrong", [{"starts_on": "soon"}, {"starts_on": "0001-01-01"}, {"weekday_1": 0}, {"weekday_1": 9}, {"client": "x"}]
)
def test_a_wrong_form_makes_nothing_and_keeps_the_choice(client, world, program, wrong):
    client.force_login(world.coach)
    reply = client.post(address(program), {**WHEN, "client": world.client.pk, **wrong})
    assert reply.status_code == 422
    assert not Fitting.objects.exists()


def test_the_page_asks_as_often_for_few_clients_as_for_many(
    client, world, program, django_assert_num_queries, django_assert_max_num_queries
):
    client.force_login(world.coach)
    # session, user, program with membership, ticked clients, offered clients, what they follow
    with django_assert_max_num_queries(8) as few:
        client.get(address(program))
    for number in range(20):
        make_client(world.practice, f"celia{number}", world.coach_membership)
    with django_assert_num_queries(len(few)):
        client.get(address(program))


def page(browser, assignment):
    return browser.get(reverse("assignment-detail", args=[assignment.pk]))


def test_the_client_reads_their_dates_and_can_change_nothing(client, world, assignment):
    client.force_login(world.client.user)
    text = page(client, assignment).content.decode()
    assert "Wand curl" in text
    assert 'name="action"' not in text


def act(browser, assignment, **fields):
    return browser.post(reverse("assignment-change", args=[assignment.pk]), fields)


def test_pause_resume_shift_and_end_through_the_page(client, world, assignment, monkeypatch):
    monkeypatch.setattr(User, "today", lambda _: MONDAY)
    client.force_login(world.coach)
    for fields in (
        {"action": "pause", "since": "2026-12-07"},
        {"action": "resume", "since": "2026-12-14"},
        {"action": "shift", "since": "2026-12-14", "days": "1"},
        {"action": "end", "since": "2026-12-15"},
    ):
        assert act(client, assignment, **fields).status_code == 302
    assignment.refresh_from_db()
    assert (assignment.status, assignment.ended_on) == ("ended", dt.date(2026, 12, 15))
    due = assignment.sessions.filter(cancelled_at=None).values_list("date", flat=True)
    assert [one.isoformat() for one in due] == ["2026-11-30", "2026-12-03", "2026-12-15"]
    assert "Correct the last day" in page(client, assignment).content.decode()


@pytest.mark.parametrize(
    "fields",
    [{}, {"action": "pause"}, {"action": "shift", "since": "2026-12-07", "days": ""},
     {"action": "fly", "since": "2026-12-07"},
     {"action": "resume", "since": "2026-12-07"}, {"action": "shift", "since": "2026-11-30", "days": "-3"}],
)  # fmt: skip
def test_a_change_that_does_not_fit_is_told_and_nothing_moves(client, world, assignment, fields):
    client.force_login(world.coach)
    before = list(assignment.sessions.values())
    reply = act(client, assignment, **fields)
    assert reply.status_code == 422
    assert 'role="alert"' in reply.content.decode()
    assert list(assignment.sessions.values()) == before


def test_the_copy_asks_as_often_for_few_sessions_as_for_many(client, world, program, django_assert_num_queries):
    client.force_login(world.coach)
    short = make_program(world, make_library_once(program), name="Short")
    counts = []
    for one in (short, program):
        known = {"starts_on": MONDAY, "weekdays": [0, 3], "assigned_by": world.coach}
        (made,) = program_assign(program=one, clients=[world.client], **known)
        # session, user, membership, assignment, may write, count, sessions, slots, exercises, adaptations, latest
        # version
        with django_assert_num_queries(12) as seen:
            page(client, made)
        counts.append(len(seen))
    assert counts[0] == counts[1]


def make_library_once(program):
    """Return the exercises that the first program made."""
    from types import SimpleNamespace

    from programs.models import Exercise

    by_name = {one.name: one for one in Exercise.objects.all()}
    return SimpleNamespace(
        curl=by_name["Wand curl"], press=by_name["Overhead wand press-down"], row=by_name["Slow row"]
    )
