"""Inviting, and accepting as someone new."""

from django import forms
from django.contrib.auth import password_validation
from django.utils.translation import gettext_lazy as _

from accounts.forms.account import PASSWORD_HELP
from accounts.forms.fields import LoadUnitField, TimeZoneField
from accounts.models import User


class InviteForm(forms.Form):
    """Whom to invite. As what is given by the page."""

    name = forms.CharField(
        label=_("Name"),
        max_length=120,
        required=False,
        help_text=_("How the letter greets them. They can change it."),
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )
    email = forms.EmailField(
        label=_("E-mail address"), max_length=254, widget=forms.EmailInput(attrs={"autocomplete": "off"})
    )


class AcceptForm(forms.Form):
    """What a new person chooses; the address is the one that was invited."""

    name = forms.CharField(label=_("Your name"), max_length=120, widget=forms.TextInput(attrs={"autocomplete": "name"}))
    password = forms.CharField(
        label=_("Password"),
        help_text=PASSWORD_HELP,
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
    )
    time_zone = TimeZoneField(proposes=True)
    load_unit = LoadUnitField()

    def __init__(self, *args: object, email: str, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)
        self.email = email

    def clean(self) -> dict:
        """Hold the password against the validators, with the person's name and address at hand."""
        data = super().clean()
        if password := data.get("password"):
            person = User(email=self.email, name=data.get("name", ""))
            try:
                password_validation.validate_password(password, person)
            except forms.ValidationError as error:
                self.add_error("password", error)
        return data
