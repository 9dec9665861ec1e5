"""A link to a hand-out: unguessable, ends, can be withdrawn, tells nothing but what was chosen."""

import datetime as dt

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from accounts import misses
from accounts.models import Membership
from programs.handout.options import Options
from programs.models import HandoutLink
from programs.services.assignment_make import program_assign
from programs.services.handout_links import handout_link_create, handout_link_withdraw
from tests.programs.factories import make_library, make_program


@pytest.fixture
def program(world):
    return make_program(world, make_library(), note="He talks too much.")


@pytest.fixture
def copy(world, program):
    known = {"starts_on": dt.date(2026, 1, 5), "weekdays": [0, 3], "assigned_by": world.coach}
    (made,) = program_assign(program=program, clients=[world.client], **known)
    return made


@pytest.fixture
def issued(world, program):
    return handout_link_create(user=world.coach, options=Options(1, 1), program=program)


def opened(token):
    return Client().get(reverse("handout-shared", args=[token]))


def test_whoever_has_the_link_reads_the_program_and_no_name(world, issued):
    answer = opened(issued.token)
    text = answer.content.decode()
    assert answer.status_code == 200
    assert "Wand curl" in text
    for hidden in (world.coach.name, world.practice.name, world.coach.email, "He talks too much."):
        assert hidden not in text


def test_the_secret_is_in_no_row(issued):
    row = HandoutLink.objects.values().get()
    assert issued.token not in str(row)
    assert len(issued.token) >= 43


def test_the_answer_asks_not_to_be_indexed_kept_or_told_on(issued):
    answer = opened(issued.token)
    assert "noindex" in answer["X-Robots-Tag"]
    assert answer["Referrer-Policy"] == "no-referrer"
    assert "no-store" in answer["Cache-Control"]
    assert "private" in answer["Cache-Control"]


def test_expired_withdrawn_and_guessed_links_get_one_and_the_same_answer(world, program, issued):
    past = handout_link_create(user=world.coach, options=Options(1, 1), program=program, days=-1)
    handout_link_withdraw(link=issued.link)
    answers = [opened(token) for token in (past.token, issued.token, "guessed", "x" * 5000)]
    assert {answer.status_code for answer in answers} == {404}
    assert len({answer.content for answer in answers}) == 1
    assert "This link does not work" in answers[0].content.decode()
    assert "Arms" not in answers[0].content.decode()
    assert "noindex" in answers[0]["X-Robots-Tag"]
    assert not answers[0].cookies


def test_a_link_ends_at_its_moment(issued):
    end = issued.link.expires_at
    assert issued.link.is_open(end - dt.timedelta(seconds=1))
    assert not issued.link.is_open(end)
    assert abs(end - timezone.now() - dt.timedelta(days=30)) < dt.timedelta(minutes=1)


def test_it_shows_the_version_it_was_made_of(client, world, program, issued):
    client.force_login(world.coach)
    client.post(reverse("program-change", args=[program.pk]), {"do": "remove;key=w1s1", "base_version": 1})
    assert "Wand curl" in opened(issued.token).content.decode()


def test_it_ends_with_the_coach_who_made_it(world, issued):
    Membership.objects.filter(user=world.coach).update(ended_on=timezone.now().date() - dt.timedelta(days=2))
    assert opened(issued.token).status_code == 404


def test_it_ends_with_what_it_shows(program, issued):
    program.delete()
    assert opened(issued.token).status_code == 404


def test_a_link_to_a_copy_names_the_client_only_when_chosen(world, copy):
    plain = handout_link_create(user=world.coach, options=Options(1, 1), assignment=copy)
    named = handout_link_create(user=world.coach, options=Options(1, 1, client=True), assignment=copy)
    assert str(world.client) not in opened(plain.token).content.decode()
    assert f"For {world.client}" in opened(named.token).content.decode()


def test_who_guesses_too_often_has_to_wait_and_openings_do_not_count(issued, monkeypatch):
    monkeypatch.setattr(misses, "MOST", 3)
    for _ in range(5):
        assert opened(issued.token).status_code == 200
    for _ in range(3):
        assert opened("guess").status_code == 404
    assert opened("guess").status_code == 429
    assert opened(issued.token).status_code == 429


def test_making_one_shows_the_link_this_once(client, world, program):
    client.force_login(world.coach)
    url = reverse("program-handout-links", args=[program.pk])
    answer = client.post(url, {"chosen": "yes", "first": "1", "last": "1", "guides": "yes", "days": "7"}, follow=True)
    link = HandoutLink.objects.get()
    address = answer.context["fresh"]
    assert address.startswith("http://testserver/hand-out/")
    assert address in answer.content.decode()
    assert address not in client.get(url).content.decode()
    assert link.options == {**Options(1, 1, reasons=False).stored()}
    assert Client().get(address).status_code == 200
    assert "once" in client.get(url).content.decode()


@pytest.mark.parametrize("days", ["0", "366", "x", ""])
def test_a_time_that_makes_no_sense_makes_no_link(client, world, program, days):
    client.force_login(world.coach)
    answer = client.post(reverse("program-handout-links", args=[program.pk]), {"days": days})
    assert answer.status_code == 422
    assert not HandoutLink.objects.exists()


def test_a_colleague_sees_a_link_and_only_its_maker_and_writers_withdraw_it(client, world, program, issued):
    url = reverse("handout-link-withdraw", args=[issued.link.pk])
    client.force_login(world.colleague)
    assert "Version 1" in client.get(reverse("program-handout-links", args=[program.pk])).content.decode()
    assert client.post(url).status_code == 403
    client.force_login(world.outsider)
    assert client.post(url).status_code == 404
    client.force_login(world.owner)
    client.post(url)
    assert opened(issued.token).status_code == 404


def test_the_list_is_paged_and_asks_as_often_for_one_as_for_many(
    client, world, program, issued, django_assert_num_queries
):
    client.force_login(world.coach)
    url = reverse("program-handout-links", args=[program.pk])
    # session, user, membership, program, count, rows, those that may be withdrawn
    with django_assert_num_queries(7):
        client.get(url)
    for _ in range(25):
        handout_link_create(user=world.coach, options=Options(1, 1), program=program)
    with django_assert_num_queries(7):
        text = client.get(url).content.decode()
    assert "Page 1 of 2" in text


def test_opening_costs_the_same_for_a_long_program(world, program, issued, django_assert_max_num_queries):
    # savepoints and link, membership, may see, note of the opening, revision, exercises, overrides, references
    with django_assert_max_num_queries(10):
        opened(issued.token)
