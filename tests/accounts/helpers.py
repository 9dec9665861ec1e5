"""What several tests of this room need: signing in through the page, codes of an app, links out of letters."""

import base64
import hmac
import re
import struct
import time

from allauth.account.models import EmailAddress
from allauth.mfa.totp.internal.auth import TOTP
from django.core.mail import EmailMessage
from django.test import Client
from django.urls import reverse

from accounts.models import User
from tests.conftest import PASSWORD

SECRET = "JBSWY3DPEHPK3PXPJBSWY3DPEHPK3PXP"


def verify(user: User) -> User:
    """Give the user a verified address, without which nobody can sign in."""
    EmailAddress.objects.update_or_create(user=user, email=user.email, defaults={"verified": True, "primary": True})
    return user


def sign_in(user: User, password: str = PASSWORD, browser: Client | None = None, **extra):
    """Sign in through the page; return (browser, response)."""
    browser = browser or Client()
    fields = {"login": user.email, "password": password}
    return browser, browser.post(reverse("account_login"), fields, **extra)


def is_signed_in(browser: Client) -> bool:
    return browser.get(reverse("profile")).status_code == 200


def code_for(secret: str, steps: int = 0) -> str:
    """Return the six digits of RFC 6238 (SHA-1, 30 s) for now, or so many steps later."""
    counter = struct.pack(">Q", int(time.time()) // 30 + steps)
    digest = hmac.new(base64.b32decode(secret), counter, "sha1").digest()
    offset = digest[-1] & 15
    number = struct.unpack(">I", digest[offset : offset + 4])[0] & 0x7FFFFFFF
    return f"{number % 10**6:06}"


def paths(letter: EmailMessage) -> list[str]:
    """Return the addresses in a letter, without scheme and host."""
    return [re.sub(r"^https?://[^/]+", "", found) for found in re.findall(r"https?://\S+", letter.body)]


def give_second_factor(user: User) -> str:
    """Set up an authenticator app behind the pages; return its secret."""
    TOTP.activate(verify(user), SECRET)
    return SECRET
