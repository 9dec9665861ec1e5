"""How allauth behaves in this house."""

from typing import Any

from allauth.account.adapter import DefaultAccountAdapter
from django.http import HttpRequest

from accounts.models import User


class AccountAdapter(DefaultAccountAdapter):
    """Sign-up makes a practice and its owner; everyone else comes by invitation."""

    def save_user(self, request: HttpRequest, user: User, form: Any, commit: bool = True) -> User:
        """Take over what the sign-up form asks beside address and password."""
        for field in ("name", "time_zone", "load_unit"):
            setattr(user, field, form.cleaned_data[field])
        return super().save_user(request, user, form, commit=commit)
