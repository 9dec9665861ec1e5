"""A second factor: required of coaches, asked at sign-in, changed only after the password was asked again."""

import json
from types import SimpleNamespace

import pytest
from allauth.mfa.models import Authenticator
from django.core import mail
from django.test import Client
from django.urls import reverse

from accounts.middleware import CoachMfaMiddleware
from tests.accounts.helpers import SECRET, code_for, give_second_factor, is_signed_in, paths, sign_in, verify
from tests.conftest import PASSWORD


@pytest.fixture
def coach(world):
    """A coach of a practice that requires a second factor."""
    world.practice.require_coach_mfa = True
    world.practice.save()
    return verify(world.coach)


def set_up(browser):
    """Walk through the set-up pages; return the last answer."""
    response = browser.get(reverse("mfa_activate_totp"))
    assert response.url.startswith(reverse("account_reauthenticate"))
    browser.post(response.url, {"password": PASSWORD})
    secret = browser.get(reverse("mfa_activate_totp")).context["form"].secret
    return browser.post(reverse("mfa_activate_totp"), {"code": code_for(secret)})


def test_coach_without_second_factor_is_sent_to_set_one_up(coach):
    browser, _ = sign_in(coach)
    for name in ("home", "client-list", "practice", "profile", "client-invite"):
        assert browser.get(reverse(name)).url == reverse("mfa_activate_totp"), name


def test_key_is_shown_in_groups_of_four(coach):
    browser, _ = sign_in(coach)
    browser.post(browser.get(reverse("mfa_activate_totp")).url, {"password": PASSWORD})
    page = browser.get(reverse("mfa_activate_totp"))
    secret = page.context["form"].secret
    assert " ".join(secret[n : n + 4] for n in range(0, len(secret), 4)) in page.text


def test_coach_without_second_factor_can_sign_out_and_change_the_password(coach):
    browser, _ = sign_in(coach)
    assert browser.get(reverse("account_change_password")).status_code == 200
    assert browser.get(reverse("mfa_index")).status_code == 200
    assert browser.get(reverse("javascript-catalog")).status_code == 200
    assert browser.post(reverse("account_logout")).status_code == 302


def test_setting_up_opens_the_pages_and_gives_recovery_codes(transactional_db, coach):
    browser, _ = sign_in(coach)
    response = set_up(browser)
    assert response.url == reverse("mfa_view_recovery_codes")
    assert len(browser.get(response.url).context["unused_codes"]) == 10
    assert browser.get(reverse("client-list")).status_code == 200
    assert mail.outbox[-1].subject.strip() == "Second factor turned on"


def test_wrong_code_sets_nothing_up(coach):
    browser, _ = sign_in(coach)
    browser.post(browser.get(reverse("mfa_activate_totp")).url, {"password": PASSWORD})
    response = browser.post(reverse("mfa_activate_totp"), {"code": "000000"})
    assert "code" in response.context["form"].errors
    assert not Authenticator.objects.exists()


def test_sign_in_stops_at_the_code(coach):
    secret = give_second_factor(coach)
    browser, response = sign_in(coach)
    assert response.url == reverse("mfa_authenticate")
    assert not is_signed_in(browser)
    assert browser.post(response.url, {"code": "000000"}).status_code == 200
    assert browser.post(response.url, {"code": code_for(secret)}).status_code == 302
    assert browser.get(reverse("client-list")).status_code == 200


def test_code_works_once(coach):
    secret = give_second_factor(coach)
    code = code_for(secret)
    first, response = sign_in(coach)
    first.post(response.url, {"code": code})
    assert is_signed_in(first)
    second, response = sign_in(coach)
    second.post(response.url, {"code": code})
    assert not is_signed_in(second)


def test_code_of_the_step_before_is_taken_and_an_older_one_is_not(coach):
    secret = give_second_factor(coach)
    late, response = sign_in(coach)
    late.post(response.url, {"code": code_for(secret, -3)})
    assert not is_signed_in(late)
    late.post(response.url, {"code": code_for(secret, -1)})
    assert is_signed_in(late)


def test_recovery_code_signs_in_once(coach):
    browser, _ = sign_in(coach)
    set_up(browser)
    code = browser.get(reverse("mfa_view_recovery_codes")).context["unused_codes"][0]
    for expected in (True, False):
        other, response = sign_in(coach)
        other.post(response.url, {"code": code})
        assert is_signed_in(other) is expected


def test_coach_with_a_second_factor_can_change_the_address(coach):
    secret = give_second_factor(coach)
    browser, response = sign_in(coach)
    browser.post(response.url, {"code": code_for(secret)})
    asked = browser.post(reverse("account_email"), {"email": "carla.new@example.org", "action_add": ""})
    browser.post(asked.url, {"password": PASSWORD})
    coach.refresh_from_db()
    assert coach.email != "carla.new@example.org"
    browser.post(paths(mail.outbox[-1])[0])
    coach.refresh_from_db()
    assert coach.email == "carla.new@example.org"
    other, response = sign_in(coach)
    assert not is_signed_in(other)
    other.post(response.url, {"code": code_for(secret, 1)})
    assert is_signed_in(other)


def test_address_that_waits_does_not_keep_from_setting_up_a_second_factor(coach):
    browser, _ = sign_in(coach)
    asked = browser.post(reverse("account_email"), {"email": "carla.new@example.org", "action_add": ""})
    browser.post(asked.url, {"password": PASSWORD})
    assert browser.get(reverse("mfa_activate_totp")).status_code == 200


def test_guessing_codes_is_stopped(coach, settings):
    settings.ACCOUNT_RATE_LIMITS = {**settings.ACCOUNT_RATE_LIMITS, "login_failed": "3/900s/key"}
    secret = give_second_factor(coach)
    browser, response = sign_in(coach)
    for _ in range(3):
        browser.post(response.url, {"code": "000000"})
    browser.post(response.url, {"code": code_for(secret)})
    assert not is_signed_in(browser)


def test_changing_the_second_factor_asks_who_you_are(coach):
    secret = give_second_factor(coach)
    browser, response = sign_in(coach)
    browser.post(response.url, {"code": code_for(secret)})
    for name in ("mfa_deactivate_totp", "mfa_generate_recovery_codes"):
        assert browser.get(reverse(name)).url.startswith(reverse("account_reauthenticate")), name
        assert browser.post(reverse(name)).url.startswith(reverse("account_reauthenticate")), name
    assert Authenticator.objects.filter(user=coach).exists()


def test_removing_it_sends_to_set_up_here_and_signs_out_elsewhere(coach):
    secret = give_second_factor(coach)
    here, response = sign_in(coach)
    here.post(response.url, {"code": code_for(secret)})
    elsewhere, response = sign_in(coach)
    elsewhere.post(response.url, {"code": code_for(secret, 1)})
    assert here.get(reverse("client-list")).status_code == elsewhere.get(reverse("client-list")).status_code == 200
    here.post(here.get(reverse("mfa_deactivate_totp")).url, {"password": PASSWORD})
    assert here.post(reverse("mfa_deactivate_totp")).status_code == 302
    assert here.get(reverse("client-list")).url == reverse("mfa_activate_totp")
    assert elsewhere.get(reverse("client-list")).url.startswith(reverse("account_login"))


def test_practice_that_does_not_require_it_asks_nobody(coach, world):
    world.practice.require_coach_mfa = False
    world.practice.save()
    browser, _ = sign_in(coach)
    assert browser.get(reverse("client-list")).status_code == 200


def test_requiring_it_later_reaches_sessions_that_run(world):
    browser, _ = sign_in(verify(world.coach))
    assert browser.get(reverse("client-list")).status_code == 200
    world.practice.require_coach_mfa = True
    world.practice.save()
    assert browser.get(reverse("client-list")).url == reverse("mfa_activate_totp")


def test_client_is_not_asked(coach, world):
    browser, _ = sign_in(verify(world.client.user))
    assert is_signed_in(browser)


def test_api_answers_with_a_problem(coach, rf):
    request = rf.get("/api/v1/sets/")
    request.user, request.session = coach, {}
    request.resolver_match = SimpleNamespace(view_name="api-v1:set-list")
    response = CoachMfaMiddleware(None).process_view(request, None, (), {})
    assert response.status_code == 403
    assert response["Content-Type"] == "application/problem+json"
    body = json.loads(response.content)
    assert (body["code"], body["status"]) == ("mfa-required", 403)


def test_session_that_has_it_costs_no_query_for_it(coach, django_assert_num_queries):
    secret = give_second_factor(coach)
    browser, response = sign_in(coach)
    browser.post(response.url, {"code": code_for(secret)})
    browser.get(reverse("home"))  # the first page notes it in the session
    with django_assert_num_queries(3):  # session, user, membership (where to go)
        browser.get(reverse("home"))


def test_secret_is_not_stored_in_clear(coach):
    give_second_factor(coach)
    stored = Authenticator.objects.get(user=coach).data["secret"]
    assert SECRET not in stored
    assert Authenticator.objects.get(user=coach).wrap().validate_code(code_for(SECRET))


def test_secret_survives_a_new_secret_key_with_the_old_one_as_fallback(coach, settings):
    give_second_factor(coach)
    settings.SECRET_KEY_FALLBACKS = [settings.SECRET_KEY]
    settings.SECRET_KEY = "another key of more than thirty-two characters"
    assert Authenticator.objects.get(user=coach).wrap().validate_code(code_for(SECRET))


def test_stage_of_one_person_does_not_help_another(coach, world):
    """A code of one person after the password of another opens nothing."""
    give_second_factor(coach)
    browser, response = sign_in(verify(world.nobody), "wrong", browser=Client())
    assert response.status_code == 200
    browser.post(reverse("mfa_authenticate"), {"code": code_for(SECRET)})
    assert not is_signed_in(browser)
