"""What an operator does about second factors: no page offers it, and nobody but who runs the server may."""

from allauth.mfa.adapter import get_adapter
from allauth.mfa.models import Authenticator
from django.db import transaction

from accounts.models import User
from accounts.services.person import sessions_end

# What of an authenticator's `data` is encrypted (allauth.mfa.totp, allauth.mfa.recovery_codes).
ENCRYPTED = ("secret", "seed")


@transaction.atomic
def second_factor_remove(*, user: User) -> int:
    """Remove the person's app and recovery codes, end their sessions on all devices; return how many were removed.
    Where there is none, nothing is done."""
    removed, _ = Authenticator.objects.filter(user=user).delete()
    if removed:
        sessions_end(user=user)
    return removed


@transaction.atomic
def secrets_renew() -> int:
    """Encrypt every second factor under the present SECRET_KEY; return how many there are.

    Raises cryptography.fernet.InvalidToken, with nothing changed, when one was encrypted under a key that is neither
    the present one nor among SECRET_KEY_FALLBACKS.
    """
    adapter = get_adapter()
    rows = list(Authenticator.objects.select_for_update().order_by("pk"))
    for row in rows:
        for name in ENCRYPTED:
            if name in row.data:
                row.data[name] = adapter.encrypt(adapter.decrypt(row.data[name]))
        if codes := row.data.get("migrated_codes"):
            row.data["migrated_codes"] = [adapter.encrypt(adapter.decrypt(code)) for code in codes]
    Authenticator.objects.bulk_update(rows, ["data"], batch_size=500)
    return len(rows)
