"""The list, the forms around a program, and the choice of an exercise."""

import pytest
from django.urls import reverse

from programs.models import Program
from programs.services.program_write import program_archive
from tests.programs.factories import make_exercise, make_library, make_program

HTMX = {"HX-Request": "true"}


@pytest.fixture
def library(db):
    return make_library()


@pytest.fixture
def program(world, library):
    return make_program(world, library)


def listed(browser, **query):
    return browser.get(reverse("program-list"), query).content.decode()


def test_the_list_is_of_ones_own_practice_and_can_be_searched(client, world, library, program):
    make_program(world, library, name="Legs")
    client.force_login(world.colleague)
    assert "Arms" in listed(client)
    assert "Arms" not in listed(client, q="leg")
    client.force_login(world.outsider)
    assert "Arms" not in listed(client)


def test_what_is_put_away_is_listed_apart(client, world, program):
    program_archive(program=program, archived=True)
    client.force_login(world.coach)
    assert "Arms" not in listed(client)
    assert "Arms" in listed(client, archived="yes")


def test_the_list_is_paged_and_asks_as_often_for_one_as_for_many(
    client, world, library, program, django_assert_num_queries, django_assert_max_num_queries
):
    client.force_login(world.coach)
    # session, user, membership, count, rows
    with django_assert_max_num_queries(6) as few:
        listed(client)
    for number in range(30):
        make_program(world, library, name=f"Program {number}")
    with django_assert_num_queries(len(few)):
        text = listed(client)
    assert "Page 1 of 2" in text


def test_a_search_by_script_gets_only_the_rows(client, world, program):
    client.force_login(world.coach)
    text = client.get(reverse("program-list"), {"q": "arms"}, headers=HTMX).content.decode()
    assert "Arms" in text
    assert "<html" not in text


def test_a_program_is_started_with_its_days(client, world):
    client.force_login(world.coach)
    reply = client.post(reverse("program-add"), {"name": "New", "note": "", "written_for": "novice", "days": 4})
    made = Program.objects.get()
    assert reply.url == reverse("program-editor", args=[made.pk])
    assert (made.author, made.practice, made.written_for) == (world.coach, world.practice, "novice")
    assert len(made.document["blocks"][0]["weeks"][0]["days"]) == 4


def test_a_form_with_errors_keeps_what_was_typed(client, world):
    client.force_login(world.coach)
    reply = client.post(reverse("program-add"), {"name": "", "note": "kept", "written_for": "novice", "days": 8})
    assert reply.status_code == 422
    assert "kept" in reply.content.decode()
    assert not Program.objects.exists()


def test_the_copy_of_a_colleagues_program_is_ones_own(client, world, program):
    client.force_login(world.colleague)
    client.post(reverse("program-copy", args=[program.pk]))
    assert Program.objects.get(author=world.colleague).document == program.document


def test_the_history_says_who_changed_what(client, world, program):
    client.force_login(world.coach)
    client.post(reverse("program-change", args=[program.pk]), {"do": "remove;key=w1s1", "base_version": 1})
    text = client.get(reverse("program-history", args=[program.pk])).content.decode()
    assert "Removed Wand curl" in text
    assert 'value="return;version=1"' in text


def offered(browser, program, **query):
    return browser.get(reverse("program-pick", args=[program.pk]), query, headers=HTMX).content.decode()


@pytest.mark.parametrize("words", ["wand cu", "biceps", "lay biceps", "bar curl"])
def test_an_exercise_is_found_by_name_muscle_lay_name_and_equipment(client, world, program, words):
    client.force_login(world.coach)
    text = offered(client, program, day="w1d1", q=words)
    assert "Wand curl" in text
    assert "Close push" not in text
    assert "▲ Start lighter than you think." in text
    assert "biceps-head · bar" in text


def test_names_that_have_the_words_earlier_are_offered_first(client, world, library, program):
    for name in ("Back hold on a plank bench", "Plank press on the floor", "Wide plank press"):
        make_exercise(name, {library.bi: 1})
    client.force_login(world.coach)
    text = offered(client, program, day="w1d1", q="Plank")
    assert text.index("Plank press on") < text.index("Wide plank") < text.index("Back hold")


def test_what_may_not_be_used_is_not_offered(client, world, library, program):
    make_exercise("Curl of theirs", {library.bi: 1}, practice=world.outsider_membership.practice)
    make_exercise("Curl of old", {library.bi: 1}, archived_at="2026-01-01T00:00Z")
    client.force_login(world.coach)
    text = offered(client, program, day="w1d1", q="curl")
    assert "theirs" not in text
    assert "of old" not in text


def test_a_swap_offers_substitutes_first_and_says_what_is_different(client, world, library, program):
    make_exercise("Both arms", {library.bi: 1, library.tri: 1})
    client.force_login(world.coach)
    text = offered(client, program, slot="w1s1")
    assert text.index("Long reach curl") < text.index("Both arms")
    assert "listed substitute; same heads" in text
    assert "adds triceps-head" in text
    assert "Wand curl" not in text
    assert "without biceps-head; adds triceps-head" in offered(client, program, slot="w1s1", q="close push")


def test_the_choice_works_as_a_page_too_and_knows_only_parts_that_are_there(client, world, library, program):
    client.force_login(world.coach)
    url = reverse("program-pick", args=[program.pk])
    text = client.get(url, {"day": "w1d1", "q": "hammer"}).content.decode()
    assert f'value="add-slot;day=w1d1;exercise={library.hammer.pk}"' in text
    assert client.get(url, {"day": "gone"}).status_code == 404


def test_the_choice_asks_as_often_for_few_as_for_many(client, world, library, program, django_assert_num_queries):
    client.force_login(world.coach)
    offered(client, program, day="w1d1", q="curl")
    # session, user, membership, program, may write, what is tried, exercises, credits
    with django_assert_num_queries(8):
        offered(client, program, day="w1d1", q="wand curl")
    for number in range(20):
        make_exercise(f"Wand curl {number}", {library.bi: 1, library.lat: 0.5})
    with django_assert_num_queries(8):
        offered(client, program, day="w1d1", q="wand curl")
