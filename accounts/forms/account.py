"""allauth's forms in our words: a label says it once (no placeholder), and the help is a sentence."""

from allauth.account import forms
from django.utils.translation import gettext_lazy as _

PASSWORD_HELP = _("At least 10 characters. Three or four unrelated words are easy to remember and hard to guess.")
LABELS = {
    "email": _("E-mail address"),
    "login": _("E-mail address"),
    "password": _("Password"),
    "oldpassword": _("Present password"),
    "password1": _("New password"),
    "password2": _("New password, again"),
    "code": _("Code"),
}


class Plain:
    """Mix into a form of allauth: our labels, no placeholders, and the field `begins` has the cursor."""

    labels: dict = {}
    begins = ""

    def __init__(self, *args, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        for name, field in self.fields.items():
            field.widget.attrs.pop("placeholder", None)
            field.label = self.labels.get(name) or LABELS.get(name, field.label)
            if name == "password1":
                field.help_text = PASSWORD_HELP
            if name == self.begins:
                field.widget.attrs["autofocus"] = True


class EmailChangeForm(Plain, forms.AddEmailForm):
    labels = {"email": _("New e-mail address")}


class PasswordChangeForm(Plain, forms.ChangePasswordForm):
    pass


class PasswordResetForm(Plain, forms.ResetPasswordForm):
    begins = "email"


class PasswordResetFromKeyForm(Plain, forms.ResetPasswordKeyForm):
    begins = "password1"


class ReauthenticateForm(Plain, forms.ReauthenticateForm):
    begins = "password"
