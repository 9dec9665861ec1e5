"""Every page of signing in wears our frame and keeps to the content policy."""

import re
from pathlib import Path

import allauth
import pytest
from django.conf import settings
from django.template.loader import get_template
from django.urls import reverse

from tests.accounts.helpers import SECRET, code_for, give_second_factor, sign_in, verify
from tests.conftest import PASSWORD

PACKAGE = Path(allauth.__file__).parent / "templates"
# Pages of features that are switched off here: no address leads to them.
OFF = re.compile(
    r"webauthn|passkey|phone|_code|trust|base_|signup_closed|snippets|recovery_codes/base|totp/base|account/email\.html"
)


@pytest.mark.parametrize(
    "name",
    sorted(
        str(path.relative_to(PACKAGE))
        for room in ("account", "mfa")
        for path in (PACKAGE / room).rglob("*.html")
        if not OFF.search(str(path.relative_to(PACKAGE)))
    ),
)
def test_page_of_the_library_is_replaced_by_ours(name):
    assert Path(get_template(name).origin.name).is_relative_to(settings.BASE_DIR / "templates")


def looks_like_ours(text: str) -> None:
    assert 'class="wordmark"' in text
    assert "base/tokens.css" in text
    assert len(re.findall(r"<h1[ >]", text)) == 1
    assert not re.search(r"<[^>]* (style|on\w+)=", text)
    assert not re.search(r"<script(?![^>]* src=)", text)
    assert "<title>" in text
    assert not re.search(r"<title>\s*·", text)


STRANGERS = [
    "account_login",
    "account_signup",
    "account_reset_password",
    "account_reset_password_done",
    "account_reset_password_from_key_done",
    "account_email_verification_sent",
    "account_inactive",
]
SIGNED_IN = ["account_logout", "account_email", "account_change_password", "account_reauthenticate", "mfa_index"]


@pytest.mark.parametrize("name", STRANGERS)
def test_page_for_strangers_is_in_our_look(name, client, db):
    looks_like_ours(client.get(reverse(name)).text)


@pytest.mark.parametrize("name", SIGNED_IN)
@pytest.mark.parametrize("role", ["coach", "client"])
def test_page_for_those_signed_in_is_in_our_look(name, role, world):
    browser, _ = sign_in(verify(world.client.user if role == "client" else world.coach))
    looks_like_ours(browser.get(reverse(name)).text)


def test_dead_links_are_in_our_look(client, db):
    looks_like_ours(client.get(reverse("account_confirm_email", args=["x"])).text)
    looks_like_ours(client.get(reverse("account_reset_password_from_key", args=["1", "set-password"])).text)


def test_pages_of_the_second_factor_are_in_our_look(world):
    give_second_factor(world.coach)
    browser, response = sign_in(world.coach)
    looks_like_ours(browser.get(response.url).text)
    browser.post(response.url, {"code": code_for(SECRET)})
    browser.post(browser.get(reverse("mfa_deactivate_totp")).url, {"password": PASSWORD})
    for name in ("mfa_index", "mfa_deactivate_totp", "mfa_generate_recovery_codes", "mfa_reauthenticate"):
        looks_like_ours(browser.get(reverse(name)).text)
    browser.post(reverse("mfa_generate_recovery_codes"))
    looks_like_ours(browser.get(reverse("mfa_view_recovery_codes")).text)
    browser.post(reverse("mfa_deactivate_totp"))
    looks_like_ours(browser.get(reverse("mfa_activate_totp")).text)


def test_too_many_attempts_are_answered_on_a_page_of_ours(client, db, settings):
    settings.ACCOUNT_RATE_LIMITS = {**settings.ACCOUNT_RATE_LIMITS, "signup": "1/m/ip"}
    client.post(reverse("account_signup"))
    response = client.post(reverse("account_signup"))
    assert response.status_code == 429
    assert "base/tokens.css" in response.text


@pytest.mark.parametrize(("name", "field"), [("account_login", "login"), ("account_reset_password", "email")])
def test_the_cursor_stands_where_typing_begins(name, field, client, db):
    form = client.get(reverse(name)).context["form"]
    assert [one for one in form.fields if form.fields[one].widget.attrs.get("autofocus")] == [field]
