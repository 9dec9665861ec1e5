"""A coach opens a practice; the address must be confirmed before anyone is let in."""

import pytest
from allauth.account.models import EmailAddress
from django.core import mail
from django.test import Client
from django.urls import reverse

from accounts.models import Membership, Practice, User
from tests.accounts.helpers import is_signed_in, paths, sign_in
from tests.conftest import PASSWORD

FIELDS = {
    "name": "Nina Newbold",
    "email": "Nina@Example.org",
    "password1": "three unrelated words",
    "practice_name": "Harbour Lane Strength",
    "time_zone": "Europe/Lisbon",
    "load_unit": "lb",
}
pytestmark = pytest.mark.django_db


@pytest.fixture
def signed_up(client):
    response = client.post(reverse("account_signup"), FIELDS)
    assert response.status_code == 302
    return client


def test_sign_up_makes_person_practice_and_ownership(signed_up):
    user = User.objects.get(email="nina@example.org")
    assert (user.name, user.time_zone, user.load_unit) == ("Nina Newbold", "Europe/Lisbon", "lb")
    membership = user.memberships.get()
    assert membership.role == Membership.Role.OWNER
    assert (membership.practice.name, membership.practice.time_zone) == ("Harbour Lane Strength", "Europe/Lisbon")
    assert membership.practice.require_coach_mfa


def test_nobody_is_let_in_before_the_address_is_confirmed(signed_up):
    assert not is_signed_in(signed_up)
    browser, response = sign_in(User.objects.get(), FIELDS["password1"])
    assert response.url == reverse("account_email_verification_sent")
    assert not is_signed_in(browser)


def test_following_the_link_changes_nothing_until_the_button_is_pressed(signed_up):
    link = paths(mail.outbox[0])[0]
    assert signed_up.get(link).status_code == 200
    assert not EmailAddress.objects.get().verified
    assert not is_signed_in(signed_up)
    signed_up.post(link)
    assert EmailAddress.objects.get().verified


def test_confirming_in_the_browser_that_signed_up_signs_in(signed_up):
    signed_up.post(paths(mail.outbox[0])[0])
    # In, and asked for the second factor that a new practice requires.
    assert signed_up.get(reverse("client-list")).url == reverse("mfa_activate_totp")


def test_confirming_in_another_browser_does_not_sign_in_there(signed_up):
    elsewhere = Client()
    elsewhere.post(paths(mail.outbox[0])[0])
    assert not is_signed_in(elsewhere)
    assert EmailAddress.objects.get().verified
    browser, _ = sign_in(User.objects.get(), FIELDS["password1"])
    # Signed in, and asked for the second factor that a new practice requires.
    assert browser.get(reverse("client-list")).url == reverse("mfa_activate_totp")


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("name", ""),
        ("email", "no address"),
        ("password1", "short"),
        ("password1", "12345678901234"),
        ("password1", "password123"),
        ("practice_name", ""),
        ("time_zone", "Mars/Olympus"),
        ("load_unit", "stone"),
    ],
)
def test_error_stands_beside_its_field_and_the_rest_is_kept(client, field, value):
    response = client.post(reverse("account_signup"), FIELDS | {field: value})
    assert response.status_code == 200
    assert list(response.context["form"].errors) == [field]
    assert not User.objects.exists()
    assert not Practice.objects.exists()
    if field != "practice_name":
        assert 'value="Harbour Lane Strength"' in response.text
    if field != "time_zone":
        assert '<option value="Europe/Lisbon" selected>' in response.text


def test_taken_address_is_not_told_to_the_one_who_asks(client, world):
    response = client.post(reverse("account_signup"), FIELDS | {"email": world.coach.email})
    assert response.url == reverse("account_email_verification_sent")
    assert User.objects.filter(email=world.coach.email).count() == 1
    assert not Practice.objects.filter(name="Harbour Lane Strength").exists()
    assert [letter.subject.strip() for letter in mail.outbox] == ["You have an account already"]


def test_password_that_repeats_the_address_is_refused(client):
    response = client.post(reverse("account_signup"), FIELDS | {"password1": "nina@example"})
    assert "password1" in response.context["form"].errors


def test_letter_is_in_our_words(signed_up):
    letter = mail.outbox[0]
    assert letter.subject.strip() == "Confirm your address"
    assert letter.to == ["nina@example.org"]
    assert "testserver" in letter.body
    assert PASSWORD not in letter.body


def test_zone_is_proposed_by_a_file_and_utc_without_it(client):
    page = client.get(reverse("account_signup")).text
    assert "accounts/zone.js" in page
    assert "data-propose-zone" in page
    assert page.index('value="UTC"') < page.index('value="Africa/Abidjan"')
