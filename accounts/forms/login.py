"""Sign-in by e-mail address, with failures counted by django-axes."""

from allauth.account import forms

from accounts.forms.account import Plain


class LoginForm(Plain, forms.LoginForm):
    """allauth's form; it tells axes whose failure it is."""

    begins = "login"

    def user_credentials(self) -> dict:
        """Add the name under which axes counts: in small letters, so that capitals do not buy more attempts."""
        credentials = super().user_credentials()
        credentials["login"] = self.cleaned_data["login"].lower()
        return credentials
