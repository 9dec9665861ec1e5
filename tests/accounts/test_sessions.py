"""Sessions: made new at sign-in, ended by a new password, ended everywhere by a button, flagged cookies."""

import os
import subprocess
import sys

import pytest
from django.conf import settings
from django.core import mail
from django.test import Client
from django.urls import reverse

from tests.accounts.helpers import is_signed_in, paths, sign_in, verify
from tests.conftest import PASSWORD

NEW = "five other words here now"


@pytest.fixture
def person(world):
    return verify(world.nobody)


def test_session_key_changes_at_sign_in(person):
    browser = Client()
    session = browser.session
    session["planted"] = 1
    session.save()
    before = session.session_key
    sign_in(person, browser=browser)
    assert browser.session.session_key != before
    assert not type(session)().exists(before)


def test_session_of_another_person_is_emptied_at_sign_in(person, world):
    browser, _ = sign_in(person)
    session = browser.session
    session["of the first"] = 1
    session.save()
    browser.post(reverse("account_logout"))
    sign_in(verify(world.client.user), browser=browser)
    assert "of the first" not in browser.session


def test_password_change_keeps_this_session_and_ends_the_others(person):
    here, elsewhere = sign_in(person)[0], sign_in(person)[0]
    fields = {"oldpassword": PASSWORD, "password1": NEW, "password2": NEW}
    assert here.post(reverse("account_change_password"), fields).status_code == 302
    assert is_signed_in(here)
    assert not is_signed_in(elsewhere)
    assert [letter.subject.strip() for letter in mail.outbox] == ["Your password was changed"]


def test_password_change_asks_for_the_present_one(person):
    browser, _ = sign_in(person)
    fields = {"oldpassword": "wrong", "password1": NEW, "password2": NEW}
    response = browser.post(reverse("account_change_password"), fields)
    assert list(response.context["form"].errors) == ["oldpassword"]


def test_sign_out_everywhere_ends_every_session(person):
    here, elsewhere = sign_in(person)[0], sign_in(person)[0]
    assert here.post(reverse("sign-out-everywhere")).status_code == 302
    assert not is_signed_in(here)
    assert not is_signed_in(elsewhere)
    assert is_signed_in(sign_in(person)[0])


def test_sign_out_everywhere_leaves_others_alone(person, world):
    other, _ = sign_in(verify(world.client.user))
    sign_in(person)[0].post(reverse("sign-out-everywhere"))
    assert is_signed_in(other)


def test_signing_out_takes_a_post(person):
    browser, _ = sign_in(person)
    browser.get(reverse("account_logout"))
    assert is_signed_in(browser)
    browser.post(reverse("account_logout"))
    assert not is_signed_in(browser)


def test_closed_account_is_out_at_once(person):
    browser, _ = sign_in(person)
    person.is_active = False
    person.save()
    assert not is_signed_in(browser)
    assert not is_signed_in(sign_in(person)[0])


def test_reset_link_works_once_and_signs_nobody_in(person):
    elsewhere, _ = sign_in(person)
    browser = Client()
    browser.post(reverse("account_reset_password"), {"email": person.email})
    link = paths(mail.outbox[-1])[0]
    form = browser.get(link).url
    browser.post(form, {"password1": NEW, "password2": NEW})
    assert not is_signed_in(browser)
    assert not is_signed_in(elsewhere)
    assert "no longer works" in Client().get(link).text
    assert is_signed_in(sign_in(person, NEW)[0])


def test_reset_for_an_unknown_address_looks_the_same_to_the_one_who_asks(person):
    known = Client().post(reverse("account_reset_password"), {"email": person.email})
    unknown = Client().post(reverse("account_reset_password"), {"email": "nobody@example.org"})
    assert (known.status_code, known.url) == (unknown.status_code, unknown.url)


def test_address_changes_only_when_the_new_one_is_confirmed_and_after_the_password(person):
    browser, _ = sign_in(person)
    fields = {"email": "nadia.new@example.org", "action_add": ""}
    response = browser.post(reverse("account_email"), fields)
    assert response.url.startswith(reverse("account_reauthenticate"))
    browser.post(response.url, {"password": PASSWORD})
    person.refresh_from_db()
    assert person.email == "nadia@example.org"
    browser.post(paths(mail.outbox[-1])[0])
    person.refresh_from_db()
    assert person.email == "nadia.new@example.org"
    assert is_signed_in(sign_in(person)[0])


def test_cookies_are_closed_to_scripts_and_other_sites(person):
    browser, _ = sign_in(person)
    cookie = browser.cookies[settings.SESSION_COOKIE_NAME]
    assert cookie["httponly"] is True
    assert cookie["samesite"] == "Lax"


def test_cookies_travel_over_tls_only_in_production():
    show = "from django.conf import settings as s; print(s.SESSION_COOKIE_SECURE, s.CSRF_COOKIE_SECURE)"
    environment = {
        "PATH": os.environ["PATH"],
        "DJANGO_SETTINGS_MODULE": "coaching.settings",
        "SINEWRIGHT_MODE": "production",
        "SINEWRIGHT_SECRET_KEY": "x" * 40,
        "SINEWRIGHT_DATABASE_URL": "sqlite://:memory:",
        "SINEWRIGHT_BASE_URL": "https://example.org",
        "SINEWRIGHT_ALLOWED_HOSTS": "example.org",
    }
    done = subprocess.run(
        [sys.executable, "-c", show], env=environment, capture_output=True, text=True, cwd=settings.BASE_DIR
    )
    assert done.stdout.split() == ["True", "True"], done.stderr
