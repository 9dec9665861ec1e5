"""Five failures lock sign-in for a quarter of an hour: for this name, from this connection, and for nobody else."""

import datetime as dt

import pytest
from axes.models import AccessAttempt
from django.core import mail
from django.test import Client
from django.urls import reverse

from tests.accounts.helpers import is_signed_in, paths, sign_in, verify
from tests.conftest import PASSWORD


@pytest.fixture
def coach(world):
    verify(world.colleague)
    return verify(world.coach)


@pytest.fixture
def locked(coach):
    """A coach after five wrong passwords."""
    responses = [sign_in(coach, "wrong")[1] for _ in range(5)]
    assert [response.status_code for response in responses] == [200, 200, 200, 200, 429]
    return coach


def test_fifth_failure_is_answered_in_words_with_the_wait(locked):
    response = sign_in(locked, "wrong")[1]
    assert response.status_code == 429
    assert "Try again in <strong>15 minutes</strong>" in response.text
    assert 0 < int(response["Retry-After"]) <= 15 * 60 + 1


def test_right_password_is_refused_while_locked(locked):
    browser, response = sign_in(locked)
    assert response.status_code == 429
    assert not is_signed_in(browser)


def test_capitals_do_not_buy_attempts(locked):
    locked.email = locked.email.upper()
    assert sign_in(locked)[1].status_code == 429


def test_others_are_not_locked(locked, world):
    browser, response = sign_in(world.colleague)
    assert response.status_code == 302
    assert is_signed_in(browser)


def test_same_person_on_another_connection_is_not_locked(locked):
    browser, _response = sign_in(locked, REMOTE_ADDR="198.51.100.7")
    assert is_signed_in(browser)


def test_address_in_a_forged_header_does_not_help(locked):
    response = sign_in(locked, HTTP_X_FORWARDED_FOR="198.51.100.7")[1]
    assert response.status_code == 429


def test_trying_while_locked_does_not_lengthen_the_wait(locked):
    first = AccessAttempt.objects.get().attempt_time
    sign_in(locked, "wrong")
    sign_in(locked)
    assert AccessAttempt.objects.get().attempt_time == first


def test_page_counts_down(locked):
    AccessAttempt.objects.update(attempt_time=AccessAttempt.objects.get().attempt_time - dt.timedelta(minutes=11))
    assert "Try again in <strong>4 minutes</strong>" in sign_in(locked)[1].text


def test_lock_ends_after_a_quarter_of_an_hour(locked):
    AccessAttempt.objects.update(attempt_time=AccessAttempt.objects.get().attempt_time - dt.timedelta(minutes=15.1))
    assert is_signed_in(sign_in(locked)[0])


def test_success_starts_the_count_anew(coach):
    for _ in range(3):
        for _ in range(4):
            assert sign_in(coach, "wrong")[1].status_code == 200
        assert sign_in(coach)[1].status_code == 302


def test_unknown_address_is_locked_just_the_same(coach):
    stranger = type(coach)(email="nobody@example.org")
    assert [sign_in(stranger, "wrong")[1].status_code for _ in range(5)] == [200, 200, 200, 200, 429]


def test_new_password_by_mail_ends_the_lock(locked):
    browser = Client()
    browser.post(reverse("account_reset_password"), {"email": locked.email})
    form = browser.get(paths(mail.outbox[-1])[0]).url
    new = "five other words here now"
    assert browser.post(form, {"password1": new, "password2": new}).status_code == 302
    assert is_signed_in(sign_in(locked, new)[0])
    assert sign_in(locked, PASSWORD)[1].status_code == 200


def test_password_is_not_kept_with_the_failure(coach):
    sign_in(coach, "a very secret mistake")
    assert "a very secret mistake" not in str(AccessAttempt.objects.values().get())


def test_form_says_what_is_wrong_without_saying_whether_the_account_exists(coach):
    known = sign_in(coach, "wrong")[1].context["form"].errors
    unknown = sign_in(type(coach)(email="nobody@example.org"), "wrong")[1].context["form"].errors
    assert known == unknown != {}
