"""A practice's own grades: given with a reason, by a named coach, and taken back by choosing the library's again."""

import pytest
from django.urls import reverse

from programs.models import GRADE_NAMES, Exercise, GradeOverride
from programs.services.grades import with_grades
from programs.services.grades_save import OwnGrade, grades_save

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


@pytest.fixture
def curl(library):
    return library.exercise("seated-leg-curl")


def address(exercise):
    return reverse("exercise-grades", args=[exercise.pk])


def own(practice, exercise):
    rows = GradeOverride.objects.filter(practice=practice, exercise=exercise)
    return {row.grade: (row.value, row.reason, row.author) for row in rows}


def test_a_grade_is_given_changed_and_taken_back(client, world, curl):
    client.force_login(world.coach, backend=BACKEND)
    sent = {"loadability": "2", "loadability_reason": "Pins stick."}
    response = client.post(address(curl), sent)
    assert response.status_code == 302
    assert own(world.practice, curl) == {"loadability": (2, "Pins stick.", world.coach)}
    client.post(address(curl), {"loadability": "1", "loadability_reason": "Worse."})
    assert own(world.practice, curl) == {"loadability": (1, "Worse.", world.coach)}
    client.post(address(curl), {})
    assert own(world.practice, curl) == {}


def test_any_coach_of_the_practice_may_change_it_and_is_named(client, world, curl):
    grades_save(practice=world.practice, exercise=curl, author=world.coach, grades={"activation": OwnGrade(2, "A.")})
    client.force_login(world.colleague, backend=BACKEND)
    client.post(
        address(curl),
        {"activation": "2", "activation_reason": "A.", "loadability": "3", "loadability_reason": "B."},
    )
    assert own(world.practice, curl) == {
        "activation": (2, "A.", world.coach),  # untouched, so it stays the word of who said it
        "loadability": (3, "B.", world.colleague),
    }


@pytest.mark.parametrize(
    ("sent", "field"),
    [
        ({"activation": "2"}, "activation_reason"),
        ({"activation_reason": "Why."}, "activation"),
        ({"activation": "6", "activation_reason": "Why."}, "activation"),
        ({"activation": "2", "activation_reason": "x" * 301}, "activation_reason"),
    ],
)
def test_what_is_wrong_stands_beside_its_field_and_nothing_is_lost(client, world, curl, sent, field):
    client.force_login(world.coach, backend=BACKEND)
    response = client.post(address(curl), {**sent, "loadability": "1", "loadability_reason": "Kept as typed."})
    assert response.status_code == 422
    assert field in response.context["form"].errors
    assert b"Kept as typed." in response.content
    assert own(world.practice, curl) == {}


def test_every_reader_of_the_practice_gets_the_practices_grade(world, curl):
    grades_save(practice=world.practice, exercise=curl, author=world.coach, grades={"activation": OwnGrade(1, "A.")})
    here = with_grades(Exercise.objects.filter(pk=curl.pk), world.practice).get()
    there = with_grades(Exercise.objects.filter(pk=curl.pk), world.outsider_membership.practice).get()
    library = with_grades(Exercise.objects.filter(pk=curl.pk), None).get()
    assert (here.activation, there.activation, library.activation) == (1, 5, 5)
    assert [getattr(library, name) for name in GRADE_NAMES] == [getattr(curl, f"grade_{name}") for name in GRADE_NAMES]


def test_an_own_exercise_has_nothing_to_differ_from(client, world, curl):
    curl.practice, curl.pk = world.practice, None
    curl.save()
    client.force_login(world.coach, backend=BACKEND)
    assert client.get(address(curl)).status_code == 404
