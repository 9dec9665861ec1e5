"""What the library's views share."""

from django.core.exceptions import PermissionDenied
from django.http import HttpRequest

from accounts import access
from accounts.models import Membership


def coach_of(request: HttpRequest) -> Membership:
    """Return the membership of someone who may add to the library; 403 for readers, who may see that it exists."""
    membership = access.membership_of(request.user)
    if membership is None:
        raise PermissionDenied
    return membership


def wants_part(request: HttpRequest) -> bool:
    """Say whether htmx asks for the changing part alone; a page from its history is needed whole."""
    htmx = request.htmx
    return bool(htmx) and not htmx.boosted and not htmx.history_restore_request
