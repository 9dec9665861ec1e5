"""Before the first session the client answers; a sign closes the door until a clinician's word is recorded."""

import datetime as dt

import pytest
from django.urls import reverse
from django.utils import timezone

from logbook.models import Clearance, Screening, Session
from logbook.reads.screening import standing_of
from logbook.services.operations import operation_apply
from logbook.services.screening import clearance_record, screening_answer
from logbook.services.sessions import session_id_for
from periodization.screening import QUESTIONS
from tests.conftest import make_client
from tests.logbook.factories import make_exercise, make_planned, op

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"
NO = dict.fromkeys(QUESTIONS, "no")


@pytest.fixture
def newcomer(world):
    return make_client(world.practice, "nele", world.coach_membership, screened=False)


@pytest.fixture
def phone(client, newcomer):
    client.force_login(newcomer.user, backend=BACKEND)
    return client


@pytest.fixture
def planned(newcomer, world):
    today = newcomer.user.today()
    return make_planned(newcomer, today, {"exercise": make_exercise("first-curl", "barbell")}, coach=world.coach)


def answer(person, days_ago=0, **yes):
    answers = dict.fromkeys(QUESTIONS, False) | {name.replace("_", "-"): True for name in yes}
    return screening_answer(client=person, answers=answers, at=timezone.now() - dt.timedelta(days=days_ago))


def standing(person):
    found = standing_of(person, today=person.user.today())
    return found.state, found.closed


def test_today_leads_to_the_questions_and_the_session_waits(phone, planned):
    page = phone.get(reverse("today")).content.decode()
    assert reverse("screening") in page
    assert reverse("planned-session", args=[planned.pk]) not in page
    assert reverse("session-unplanned") not in page
    assert phone.get(reverse("planned-session", args=[planned.pk])).url == reverse("screening")
    assert phone.post(reverse("session-unplanned")).url == reverse("screening")
    assert not Session.objects.exists()
    assert [page["name"] for page in phone.get(reverse("kept-pages")).json()["pages"] if page["is_session"]] == []


def test_after_answers_without_a_sign_the_session_opens(phone, planned, newcomer):
    assert phone.post(reverse("screening"), NO | {"active": "yes"}).url == reverse("screening")
    row = Screening.objects.get(client=newcomer)
    assert (row.outcome, row.version, row.answers["active"], row.answers["sign-chest"]) == ("go-on", 1, True, False)
    assert phone.get(reverse("planned-session", args=[planned.pk])).status_code == 200
    assert reverse("planned-session", args=[planned.pk]) in phone.get(reverse("today")).content.decode()


def test_every_question_wants_an_answer_and_none_typed_is_lost(phone, newcomer):
    given = {name: value for name, value in NO.items() if name != "sign-lying"} | {
        "sign-ankles": "yes",
        "note": "Ask me.",
    }
    response = phone.post(reverse("screening"), given)
    page = response.content.decode()
    assert response.status_code == 422
    assert page.count("Answer with yes or no.") == 1
    assert 'name="sign-ankles" value="yes" checked' in page
    assert "Ask me." in page
    assert not Screening.objects.filter(client=newcomer).exists()


def test_a_sign_asks_for_a_clinician_and_says_which(phone, planned, newcomer):
    phone.post(reverse("screening"), NO | {"sign-dizzy": "yes"})
    page = phone.get(reverse("screening")).content.decode()
    assert "See a clinician first." in page
    assert "have you fainted" in page
    assert "does not replace medical or licensed advice" in page
    assert phone.get(reverse("planned-session", args=[planned.pk])).url == reverse("screening")


def test_a_recorded_word_opens_the_door_a_later_no_shuts_it_and_new_answers_ask_anew(world, newcomer):
    row = answer(newcomer, sign_chest=True)
    assert standing(newcomer) == ("clinician", True)

    def say(cleared):
        clearance_record(
            screening=row,
            cleared=cleared,
            clinician="Dr Made Up",
            said_on=newcomer.user.today(),
            recorded_by=world.coach,
        )

    say(True)
    assert standing(newcomer) == ("fine", False)
    say(False)
    assert standing(newcomer) == ("clinician", True)
    assert Clearance.objects.count() == 2
    say(True)
    answer(newcomer, sign_chest=True)
    assert standing(newcomer) == ("clinician", True)
    assert Screening.objects.filter(client=newcomer).count() == 2


def test_who_trains_already_is_asked_but_not_stopped_except_by_a_sign(newcomer):
    Session.objects.create(client=newcomer, date=newcomer.user.today(), started_at=timezone.now())
    assert standing(newcomer) == ("ask", False)
    answer(newcomer, active=True, known_heart=True)
    assert standing(newcomer) == ("clinician", False)
    answer(newcomer, active=True, sign_dizzy=True)
    assert standing(newcomer) == ("clinician", True)


def test_a_known_disease_stops_a_first_session(newcomer):
    answer(newcomer, active=True, known_heart=True)
    assert standing(newcomer) == ("clinician", True)


def test_answers_are_asked_for_again_after_a_year(newcomer):
    answer(newcomer, days_ago=360)
    assert standing(newcomer) == ("fine", False)
    Screening.objects.all().delete()
    answer(newcomer, days_ago=370)
    assert standing(newcomer) == ("again", False)


def test_what_was_done_is_taken_whatever_was_answered(phone, planned, newcomer):
    answer(newcomer, sign_chest=True)
    session = session_id_for(planned.pk)
    now = timezone.now()
    operation_apply(client=newcomer, operation=op("session.start", now, session=session, planned=planned.pk), now=now)
    assert Session.objects.filter(pk=session).exists()
    assert phone.get(reverse("session-page", args=[session])).status_code == 200
