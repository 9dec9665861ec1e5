"""allauth's second-factor forms in our words."""

from allauth.mfa.base import forms
from allauth.mfa.totp import forms as totp
from django.utils.translation import gettext_lazy as _

from accounts.forms.account import Plain


class CodeForm(Plain):
    """A code from the app, or one of the recovery codes kept for the day the phone is lost."""

    labels = {"code": _("Code from your app, or a recovery code")}

    def __init__(self, *args, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        self.fields["code"].widget.attrs |= {"inputmode": "numeric", "autofocus": True}


class AuthenticateForm(CodeForm, forms.AuthenticateForm):
    pass


class ReauthenticateForm(CodeForm, forms.ReauthenticateForm):
    pass


class ActivateForm(CodeForm, totp.ActivateTOTPForm):
    labels = {"code": _("Six-digit code that the app shows now")}
