"""How allauth behaves in this house."""

import base64
import hashlib
from typing import Any

from allauth.account.adapter import DefaultAccountAdapter, get_adapter
from allauth.mfa.adapter import DefaultMFAAdapter
from cryptography.fernet import Fernet, MultiFernet
from django.conf import settings
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest
from django.utils.translation import gettext_lazy as _

from accounts.models import User


def client_ip(request: HttpRequest) -> str | None:
    """Return the caller's address as allauth sees it, so that axes counts by the same one; None if there is none."""
    try:
        return get_adapter(request).get_client_ip(request)
    except PermissionDenied:  # a request that came over no wire, as in django.test.Client.force_login
        return None


class AccountAdapter(DefaultAccountAdapter):
    """Sign-up makes a practice and its owner; everyone else comes by invitation."""

    error_messages = DefaultAccountAdapter.error_messages | {
        "email_password_mismatch": _("This address and this password do not belong together."),
        "enter_current_password": _("This is not your present password."),
        "incorrect_password": _("This is not your password."),
        "too_many_login_attempts": _("Too many failed attempts. Wait a quarter of an hour and try again."),
        "duplicate_email": _("This is your address already."),
    }

    def save_user(self, request: HttpRequest, user: User, form: Any, commit: bool = True) -> User:
        """Take over what the sign-up form asks beside address and password."""
        for field in ("name", "time_zone", "load_unit"):
            setattr(user, field, form.cleaned_data[field])
        return super().save_user(request, user, form, commit=commit)

    def reauthenticate(self, user: User, password: str) -> bool:
        """Check the password of someone already signed in; such failures are limited by allauth, not by axes.

        axes would book them under no name, and lock everyone at that address out of this very page.
        """
        return user.check_password(password)


class MfaAdapter(DefaultMFAAdapter):
    """Second-factor secrets are stored encrypted, under keys made from SECRET_KEY and its fallbacks.

    Whoever rotates SECRET_KEY must keep the old one in SECRET_KEY_FALLBACKS, or coaches set up their apps anew.
    """

    error_messages = DefaultMFAAdapter.error_messages | {
        "incorrect_code": _("This code does not fit. Wait for the next one and type it."),
        "unverified_email": _("Confirm your e-mail address first."),
    }

    def _fernet(self) -> MultiFernet:
        keys = [settings.SECRET_KEY, *settings.SECRET_KEY_FALLBACKS]
        digests = (hashlib.sha256(b"accounts.MfaAdapter:" + key.encode()).digest() for key in keys)
        return MultiFernet([Fernet(base64.urlsafe_b64encode(digest)) for digest in digests])

    def encrypt(self, text: str) -> str:
        return self._fernet().encrypt(text.encode()).decode()

    def decrypt(self, encrypted_text: str) -> str:
        return self._fernet().decrypt(encrypted_text.encode()).decode()
