"""What follows when a person's means of signing in change."""

from typing import Any

from allauth.account.signals import password_reset
from allauth.mfa.models import Authenticator
from allauth.mfa.signals import authenticator_removed
from axes.utils import reset
from django.contrib.auth import update_session_auth_hash
from django.dispatch import receiver
from django.http import HttpRequest

from accounts.middleware import SESSION_KEY
from accounts.models import User
from accounts.services.person import sessions_end


@receiver(authenticator_removed, dispatch_uid="accounts.forget_second_factor")
def forget_second_factor(request: HttpRequest, user: User, authenticator: Authenticator, **kwargs: Any) -> None:
    """Ask for a second factor again, here and on every other device, where the session still remembers one."""
    if authenticator.type == Authenticator.Type.RECOVERY_CODES:
        return
    request.session.pop(SESSION_KEY, None)
    sessions_end(user=user)
    update_session_auth_hash(request, user)


@receiver(password_reset, dispatch_uid="accounts.end_lockout")
def end_lockout(user: User, **kwargs: Any) -> None:
    """Let in whoever has just proved, through their mailbox, that the account is theirs."""
    reset(username=user.email.lower())
