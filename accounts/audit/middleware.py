"""Writes the audit after each answer: what the door opened, and what was changed through which page."""

import logging
from collections.abc import Callable

from django.db import DatabaseError
from django.http import HttpRequest, HttpResponse

from accounts import access
from accounts.audit.preview import kept_something
from accounts.audit.record import record_change, record_look

Handler = Callable[[HttpRequest], HttpResponse]
logger = logging.getLogger(__name__)
# allauth's own pages: a person's password, address and second factor. Their letters tell; no client is in them.
OWN_ACCOUNT = ("account_", "mfa_")


class AuditMiddleware:
    """Records coaches only: what clients do with their own data is theirs.

    An answer is never lost because the audit could not be written; the failure is logged.
    """

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        # Only what the page itself asked for: a page that never needed the membership opened nobody's data.
        membership = getattr(request.user, "_running_membership", None)
        route = getattr(request.resolver_match, "view_name", "") or ""
        if membership is None or response.status_code >= 400 or not route or route.startswith(OWN_ACCOUNT):
            return response
        opened = access.opened_by(request.user)
        try:
            if request.method in ("GET", "HEAD") or not kept_something(response):
                record_look(membership=membership, clients=opened, page=route)
            else:
                record_change(membership=membership, clients=opened, page=route)
        except DatabaseError:
            logger.exception("The audit of %s could not be written", route)
        return response
