"""One exercise's page: cautions first, grades with reasons and sources, and the client's plain version."""

import html

import pytest
from django.urls import reverse

from programs.models import ExerciseLink, GradeOverride

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


def page(browser, exercise):
    response = browser.get(reverse("exercise-detail", args=[exercise.pk]))
    assert response.status_code == 200
    return html.unescape(response.content.decode())


@pytest.fixture
def coach(client, world, library):
    client.force_login(world.coach, backend=BACKEND)
    return client


@pytest.fixture
def curl(library):
    return library.exercise("seated-leg-curl")


def test_cautions_come_first_and_are_all_there(coach, curl):
    content = page(coach, curl)
    places = [content.index(caution) for caution in curl.cautions]
    assert max(places) < content.index(curl.set_up) < content.index("What a set counts for")
    assert "Stop on chest pain" in content


def test_credits_are_shown_with_lay_names_words_and_what_makes_a_head_long(coach, curl):
    content = page(coach, curl)
    for shown in ("semitendinosus", "back of the thigh, inner", "target: hamstrings", "yes, hip in flexion"):
        assert shown in content
    assert "<strong>1</strong> direct" in content
    assert "<strong>0.25</strong> slight" in content


def test_grades_carry_their_reason_and_numbered_sources(coach, curl):
    content = page(coach, curl)
    for reason in curl.grade_reasons.values():
        assert reason in content
    assert 'href="#ref-1"' in content
    assert 'id="ref-1"' in content
    assert "https://doi.org/10.1249/MSS.0000000000002523" in content
    assert "Grades are the library's judgement" in content


def test_the_practices_own_grade_stands_beside_the_librarys_with_who_and_why(coach, world, curl):
    GradeOverride.objects.create(
        practice=world.practice,
        exercise=curl,
        grade="loadability",
        value=2,
        reason="Pins stick.",
        author=world.colleague,
    )
    GradeOverride.objects.create(
        practice=world.outsider_membership.practice,
        exercise=curl,
        grade="activation",
        value=1,
        reason="Another practice's opinion.",
        author=world.outsider,
    )
    content = page(coach, curl)
    assert "<s>5 very high</s>" in content
    assert "<strong>2</strong> low: Pins stick." in content
    assert "Colin" in content
    assert "Another practice's opinion." not in content


def test_variants_and_substitutes_are_linked_with_the_reason(coach, curl):
    content = page(coach, curl)
    for link in ExerciseLink.objects.filter(exercise=curl):
        assert reverse("exercise-detail", args=[link.other_id]) in content
    assert "named as a substitute" in content


@pytest.mark.parametrize(
    ("slug", "said"),
    [
        ("dumbbell-split-squat", "what is printed on one of them, also when two are held"),
        ("barbell-back-squat", "the bar and all plates together"),
        ("seated-leg-curl", "the number on the stack"),
        ("pull-up", "only what is added is written down"),
        ("assisted-pull-up", "the help is written down, so more is lighter"),
        ("band-prone-leg-curl", "not counted, write down 0"),
        ("back-extension-hold", "seconds held"),
    ],
)
def test_it_says_how_the_load_is_counted(coach, client, world, library, slug, said):
    exercise = library.exercise(slug)
    assert said in page(coach, exercise)
    client.force_login(world.client.user, backend=BACKEND)
    assert said in page(client, exercise)


def test_no_maximum_is_promised_for_seconds_and_steps(coach, library):
    assert "no estimated maximum" in page(coach, library.exercise("dumbbell-carry"))
    assert "no estimated maximum" not in page(coach, library.exercise("seated-leg-curl"))


def test_a_client_gets_the_plain_version(client, world, curl):
    client.force_login(world.client.user, backend=BACKEND)
    content = page(client, curl)
    for shown in (*curl.cautions, *curl.cues, curl.set_up, "What it trains", "hamstrings"):
        assert shown in content
    for hidden in (*curl.grade_reasons.values(), "semitendinosus", "judgement, from", "Copy and change"):
        assert hidden not in content


def test_queries_do_not_grow_with_links_and_overrides(coach, world, curl, library, django_assert_num_queries):
    # session, user, membership; exercise, its actions, credits, sources, own grades, variants, limits;
    # then substitutes: candidates, their credits, the heads, named ones
    with django_assert_num_queries(14):
        page(coach, curl)
    ExerciseLink.objects.bulk_create(
        ExerciseLink(exercise=curl, other=other, kind="harder")
        for other in [library.exercise(slug) for slug in ("leg-press", "barbell-back-squat", "push-up", "pull-up")]
    )
    for grade in ("activation", "long_length", "loadability"):
        GradeOverride.objects.create(
            practice=world.practice, exercise=curl, grade=grade, value=2, reason="Why.", author=world.coach
        )
    with django_assert_num_queries(14):
        page(coach, curl)
