"""Sign-up of a coach who opens a practice. Clients and further coaches come by invitation."""

from typing import Any

from allauth.account import forms as allauth_forms
from django import forms
from django.db import transaction
from django.http import HttpRequest
from django.utils.translation import gettext_lazy as _

from accounts.forms.account import Plain
from accounts.forms.fields import LoadUnitField, TimeZoneField
from accounts.models import User
from accounts.services.practice import practice_create


class SignupForm(Plain, allauth_forms.SignupForm):
    """Person and practice in one form; both are saved or neither."""

    labels = {"password1": _("Password")}

    name = forms.CharField(label=_("Your name"), max_length=120, widget=forms.TextInput(attrs={"autocomplete": "name"}))
    practice_name = forms.CharField(
        label=_("Name of the practice"),
        max_length=120,
        help_text=_("What your clients know your business by. You can change it later."),
        widget=forms.TextInput(attrs={"autocomplete": "organization"}),
    )
    time_zone = TimeZoneField(proposes=True)
    load_unit = LoadUnitField()

    field_order = ["name", "email", "password1", "practice_name", "time_zone", "load_unit"]

    def save(self, request: HttpRequest) -> Any:
        """Create the person, their practice and their membership as its owner."""
        with transaction.atomic():
            user: User = super().save(request)
            practice_create(owner=user, name=self.cleaned_data["practice_name"])
        return user
