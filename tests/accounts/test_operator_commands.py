"""What an operator does from the shell: let in who lost the second factor, and leave an earlier key behind."""

import pytest
from allauth.mfa.models import Authenticator
from allauth.mfa.recovery_codes.internal.auth import RecoveryCodes
from allauth.mfa.totp.internal.auth import TOTP
from django.core.management import CommandError, call_command
from django.urls import reverse

from tests.accounts.helpers import code_for, give_second_factor, is_signed_in, sign_in, verify

pytestmark = pytest.mark.django_db


def sign_in_whole(user, secret):
    browser, _ = sign_in(user)
    browser.post(reverse("mfa_authenticate"), {"code": code_for(secret)})
    return browser


def test_who_lost_the_second_factor_signs_in_with_the_password_and_older_sessions_end(world):
    browser = sign_in_whole(world.owner, give_second_factor(world.owner))
    assert is_signed_in(browser)
    call_command("remove_second_factor", world.owner.email.upper(), verbosity=0)
    assert not is_signed_in(browser)
    assert is_signed_in(sign_in(world.owner)[0])
    assert not Authenticator.objects.exists()


@pytest.mark.parametrize("email", ["nobody-here@example.org", "carla@example.org"])
def test_an_address_without_a_second_factor_is_told(world, email):
    with pytest.raises(CommandError):
        call_command("remove_second_factor", email)


def test_who_has_no_second_factor_stays_signed_in(world):
    browser, _ = sign_in(verify(world.owner))
    assert is_signed_in(browser)
    with pytest.raises(CommandError):
        call_command("remove_second_factor", world.owner.email)
    assert is_signed_in(browser)


def test_after_renewing_the_earlier_key_can_go(world, settings):
    secret = give_second_factor(world.owner)
    codes = RecoveryCodes.activate(world.owner).get_unused_codes()
    earlier, settings.SECRET_KEY = settings.SECRET_KEY, "a newer key of fifty characters, or a few more than that"
    settings.SECRET_KEY_FALLBACKS = [earlier]
    call_command("renew_secrets", verbosity=0)
    settings.SECRET_KEY_FALLBACKS = []
    app, paper = (Authenticator.objects.get(type=kind) for kind in ("totp", "recovery_codes"))
    assert TOTP(app).validate_code(code_for(secret))
    assert RecoveryCodes(paper).get_unused_codes() == codes


def test_without_the_earlier_key_nothing_is_changed(world, settings):
    give_second_factor(world.owner)
    before = Authenticator.objects.get().data
    settings.SECRET_KEY = "a newer key of fifty characters, or a few more than that"
    settings.SECRET_KEY_FALLBACKS = []
    with pytest.raises(CommandError, match="Nothing was changed"):
        call_command("renew_secrets")
    assert Authenticator.objects.get().data == before
