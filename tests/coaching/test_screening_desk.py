"""The coach is told, records what a clinician said, and is never asked to judge."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from logbook.models import Clearance
from logbook.services.screening import screening_answer
from periodization.screening import QUESTIONS
from tests.conftest import make_client

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


@pytest.fixture
def coach(client, world):
    client.force_login(world.coach, backend=BACKEND)
    return client


def answer(person, **yes):
    answers = dict.fromkeys(QUESTIONS, False) | {name.replace("_", "-"): True for name in yes}
    return screening_answer(client=person, answers=answers, at=timezone.now())


def word(world, **changes):
    day = world.client.user.today().isoformat()
    return {"cleared": "yes", "clinician": "A. Invented, physician", "said_on": day, "note": "Easy first."} | changes


def test_the_board_and_the_client_page_say_it_first(coach, world):
    make_client(world.practice, "aaron", world.coach_membership)
    answer(world.client, sign_chest=True)
    board = coach.get(reverse("board")).content.decode()
    assert board.index("Clemens") < board.index("Aaron")
    assert board.count("a clinician first") == 1
    assert "Clemens" in coach.get(reverse("board"), {"attention": "on"}).content.decode()
    page = coach.get(reverse("client-page", args=[world.client.pk])).content.decode()
    assert "a clinician first" in page
    assert reverse("client-screening", args=[world.client.pk]) in page


def test_the_coach_reads_the_answers_in_words_and_records_a_word(coach, world):
    answer(world.client, sign_chest=True)
    url = reverse("client-screening", args=[world.client.pk])
    page = coach.get(url).content.decode()
    assert "tightness in the chest" in page
    assert "not asked to judge" in page
    assert coach.post(url, word(world)).url == url
    row = Clearance.objects.get(client=world.client)
    assert (row.cleared, row.clinician, row.note, row.recorded_by) == (
        True, "A. Invented, physician", "Easy first.", world.coach,
    )  # fmt: skip
    assert "a clinician first" not in coach.get(reverse("board")).content.decode()


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"cleared": ""}, "This field is required"),
        ({"clinician": " "}, "This field is required"),
        ({"said_on": "2999-01-01"}, "still to come"),
        ({"said_on": "2001-01-01"}, "over a year ago"),
    ],
)
def test_half_a_word_is_not_recorded(coach, world, changes, said):
    answer(world.client, sign_chest=True)
    response = coach.post(reverse("client-screening", args=[world.client.pk]), word(world, **changes))
    assert response.status_code == 422
    assert said in response.content.decode()
    assert not Clearance.objects.exists()


def test_without_answers_there_is_nothing_to_record(coach, world):
    newcomer = make_client(world.practice, "nele", world.coach_membership, screened=False)
    url = reverse("client-screening", args=[newcomer.pk])
    assert "Not answered yet" in coach.get(url).content.decode()
    assert coach.post(url, word(world)).status_code == 404


def test_rounds_are_paged_and_cost_the_same(coach, world, django_assert_num_queries):
    url = reverse("client-screening", args=[world.client.pk])
    for _round in range(2):
        answer(world.client, sign_dizzy=True)
    with CaptureQueriesContext(connection) as few:
        coach.get(url)
    # session, user, membership, client; where they stand; count, rounds, their clearances, and the frame's own
    assert len(few) <= 10
    for _round in range(12):
        answer(world.client, sign_dizzy=True)
    with django_assert_num_queries(len(few)):
        assert "Next" in coach.get(url).content.decode()
