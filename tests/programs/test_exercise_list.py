"""The library's list: searching, filtering, sorting, paging, and what a client sees of it."""

import re

import pytest
from django.urls import reverse
from django.utils import timezone

from programs.models import Exercise, GradeOverride
from programs.views.exercise_list import PER_PAGE

LIST = reverse("exercise-list")


@pytest.fixture
def coach(client, world, library):
    client.force_login(world.coach, backend="allauth.account.auth_backends.AuthenticationBackend")
    return client


def found(browser, **query):
    """The exercises that all pages of the answer list, in order."""
    response = browser.get(LIST, query)
    rows = [row.exercise for row in response.context["rows"]]
    for number in range(2, response.context["page"].paginator.num_pages + 1):
        rows += [row.exercise for row in browser.get(LIST, {**query, "page": number}).context["rows"]]
    return rows


def test_pages_hold_everything_once(coach, library):
    rows = found(coach)
    assert len(rows) == len({row.pk for row in rows}) == len(library.data.exercises)
    assert len(coach.get(LIST).context["rows"]) == PER_PAGE
    # Databases sort hyphens and capitals by their own rules; the first letters are enough to see that it is by name.
    assert [row.name[0] for row in rows] == sorted(row.name[0] for row in rows)


def test_each_word_of_the_name_must_be_found_in_any_order(coach):
    rows = found(coach, q="CURL seated leg")
    assert "seated-leg-curl" in [row.slug for row in rows]
    assert all("curl" in row.name.lower() and "leg" in row.name.lower() for row in rows)
    assert found(coach, q="no such exercise") == []


def test_words_are_also_looked_for_among_the_muscles_trained_directly(coach):
    slugs = [row.slug for row in found(coach, q="triceps long")]
    assert "ez-bar-lying-triceps-extension" in slugs
    assert "barbell-bench-press" not in slugs


def test_a_muscle_is_found_by_group_and_by_head(coach):
    group = found(coach, muscle="group:triceps")
    head = found(coach, muscle="head:triceps-brachii-long")
    assert 0 < len(head) <= len(group)
    assert all(row.credits.filter(head__group__slug="triceps").exists() for row in group)
    direct = found(coach, muscle="head:triceps-brachii-long", counted="direct")
    assert 0 < len(direct) < len(head)
    assert {row.credits.get(head__slug="triceps-brachii-long").credit for row in direct} == {1}


def test_loaded_while_long_is_asked_of_the_muscle_that_is_asked_for(coach):
    rows = found(coach, muscle="head:triceps-brachii-long", long="on")
    assert "overhead-cable-triceps-extension" in [row.slug for row in rows]
    assert all(row.credits.get(head__slug="triceps-brachii-long").loaded_long for row in rows)
    everything = found(coach, long="on")
    assert len(everything) > len(rows)


@pytest.mark.parametrize(
    ("query", "holds"),
    [
        ({"sides": "single"}, lambda row: row.laterality == "single"),
        ({"load_kind": "assisted"}, lambda row: row.load_kind == "assisted"),
        ({"action": "knee-flexion"}, lambda row: row.actions.filter(slug="knee-flexion").exists()),
        ({"near_failure": "5"}, lambda row: row.grade_near_failure == 5),
        ({"activation": "4", "loadability": "4"}, lambda row: min(row.grade_activation, row.grade_loadability) >= 4),
    ],
)
def test_filters_keep_what_fits_and_all_of_it(coach, query, holds):
    rows = found(coach, **query)
    assert rows
    assert {row.pk for row in rows} == {row.pk for row in Exercise.objects.all() if holds(row)}


def test_equipment_is_a_filter(coach, library):
    band = library.equipment("band")
    assert {row.equipment_id for row in found(coach, equipment=band.pk)} == {band.pk}


def test_sorting_by_a_grade_puts_the_best_first(coach):
    values = [row.loadability for row in found(coach, sort="loadability")]
    assert values == sorted(values, reverse=True)
    shares = [row.share for row in found(coach, muscle="group:glutes", sort="share")]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] == 1


def test_the_practices_own_grade_is_what_is_filtered_and_sorted_by(coach, world, library):
    curl = library.exercise("seated-leg-curl")
    assert curl.grade_loadability == 5
    GradeOverride.objects.create(
        practice=world.practice,
        exercise=curl,
        grade="loadability",
        value=1,
        reason="Our pins stick.",
        author=world.coach,
    )
    GradeOverride.objects.create(
        practice=world.outsider_membership.practice,
        exercise=library.exercise("prone-leg-curl"),
        grade="loadability",
        value=1,
        reason="Not ours to know.",
        author=world.outsider,
    )
    slugs = [row.slug for row in found(coach, loadability="4")]
    assert "seated-leg-curl" not in slugs
    assert "prone-leg-curl" in slugs
    assert found(coach, sort="loadability")[-1].loadability == 1


def own_exercise(practice, library, name="Our leg curl", **fields):
    row = library.exercise("seated-leg-curl")
    credits = list(row.credits.all())
    row.pk, row.practice, row.name, row.slug = None, practice, name, name.lower().replace(" ", "-")
    for key, value in fields.items():
        setattr(row, key, value)
    row.save()
    for credit in credits:
        credit.pk, credit.exercise = None, row
        credit.save()
    return row


def test_own_and_archived_are_shown_when_asked_for(coach, world, library):
    own = own_exercise(world.practice, library)
    gone = own_exercise(world.practice, library, "Our old curl", archived_at=timezone.now())
    foreign = own_exercise(world.outsider_membership.practice, library, "Their curl")
    everything = found(coach)
    assert own in everything
    assert gone not in everything
    assert foreign not in everything
    assert found(coach, show="own") == [own]
    assert found(coach, show="archived") == [gone]


def test_a_filter_that_is_not_understood_filters_nothing_and_says_so(coach, library):
    response = coach.get(LIST, {"muscle": "head:tail", "activation": "9", "page": "x"})
    assert response.status_code == 200
    assert response.context["page"].paginator.count == len(library.data.exercises)
    assert "muscle" in response.context["form"].errors
    assert b"errorlist" in response.content


def test_htmx_gets_the_results_alone_and_its_history_the_whole_page(coach):
    part = coach.get(LIST, {"q": "curl"}, headers={"HX-Request": "true"})
    assert b"<html" not in part.content
    assert b'id="results"' in part.content
    assert "HX-Request" in part["Vary"]
    restored = coach.get(LIST, headers={"HX-Request": "true", "HX-History-Restore-Request": "true"})
    assert b"<html" in restored.content


def test_pages_keep_the_filters(coach):
    content = coach.get(LIST, {"muscle": "group:quadriceps", "counted": ""}).content.decode()
    following = coach.get(LIST, {"sort": "activation"}).content.decode()
    assert "muscle=group" in content or "Page 1" not in content
    assert re.search(r'rel="next" href="\?sort=activation&amp;page=2"', following)


def test_cautions_are_on_every_line(coach):
    response = coach.get(LIST)
    content = response.content.decode()
    assert content.count('class="caution-fold"') == len(response.context["rows"])
    assert response.context["rows"][0].exercise.cautions[0] in content.replace("&#x27;", "'")


def test_a_client_reads_the_list_without_grades_and_without_the_practices_archive(client, world, library):
    own_exercise(world.practice, library, "Our old curl", archived_at=timezone.now())
    client.force_login(world.client.user, backend="allauth.account.auth_backends.AuthenticationBackend")
    response = client.get(LIST, {"show": "archived", "activation": "5"})
    assert response.context["page"].paginator.count == len(library.data.exercises)
    content = response.content.decode()
    assert "Near failure" not in content
    assert reverse("exercise-create") not in content
    assert "Our old curl" not in content


def test_the_number_of_queries_is_the_same_for_few_and_for_many(coach, world, library, django_assert_num_queries):
    # session, user, membership; heads, equipment and actions for the filters; the count, the rows, their credits
    with django_assert_num_queries(9):
        coach.get(LIST, {"q": "seated leg curl"})
    for n in range(30):
        own_exercise(world.practice, library, f"Our curl {n}")
    with django_assert_num_queries(9):
        coach.get(LIST)
