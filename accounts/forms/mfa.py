"""allauth's second-factor forms in our words."""

from allauth.mfa import app_settings
from allauth.mfa.adapter import get_adapter
from allauth.mfa.base import forms
from allauth.mfa.totp import forms as totp
from django.core.cache import cache
from django.utils.translation import gettext_lazy as _

from accounts.forms.account import Plain


class CodeForm(Plain):
    """A code from the app, or one of the recovery codes kept for the day the phone is lost."""

    labels = {"code": _("Code from your app, or a recovery code")}

    def __init__(self, *args, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        self.fields["code"].widget.attrs |= {"inputmode": "numeric", "autofocus": True}


class OnceForm(CodeForm):
    """Take a code once. allauth remembers used codes for one period; with clock tolerance they live longer."""

    def clean_code(self) -> str:
        code = super().clean_code()
        lives = app_settings.TOTP_PERIOD * (2 * app_settings.TOTP_TOLERANCE + 1)
        if not cache.add(f"second-factor-used:{self.user.pk}:{code}", True, timeout=lives):
            raise get_adapter().validation_error("incorrect_code")
        return code


class AuthenticateForm(OnceForm, forms.AuthenticateForm):
    pass


class ReauthenticateForm(OnceForm, forms.ReauthenticateForm):
    pass


class ActivateForm(CodeForm, totp.ActivateTOTPForm):
    labels = {"code": _("Six-digit code that the app shows now")}
