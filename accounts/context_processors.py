"""What every page's frame needs to know about who is looking."""

from typing import Any

from django.http import HttpRequest
from django.utils.functional import SimpleLazyObject

from accounts import access


def person(request: HttpRequest) -> dict[str, Any]:
    """Offer the running membership and the own client record; asked of the database only if a page uses them."""
    user = getattr(request, "user", None)
    return {
        "membership": SimpleLazyObject(lambda: access.membership_of(user)),
        "own_client": SimpleLazyObject(lambda: access.client_of(user)),
        # For `{% extends shell %}` on pages that coaches see at a desk and clients on a phone. Called by the template.
        "shell": lambda: "phone.html" if access.client_of(user) and not access.membership_of(user) else "base.html",
    }
