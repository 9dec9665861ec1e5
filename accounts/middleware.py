"""Per-request duties: the person's time zone and language, and a second factor for coaches."""

from collections.abc import Callable
from typing import Any

from allauth.mfa.utils import is_mfa_enabled
from django.conf import settings
from django.http import HttpRequest, HttpResponse, HttpResponseBase, JsonResponse
from django.shortcuts import redirect
from django.utils import timezone, translation
from django.utils.translation import gettext as _

from accounts import access

Handler = Callable[[HttpRequest], HttpResponse]

# Where a coach without a second factor may go: to set one up, to sign out, and what those pages are made of.
OPEN_PREFIXES = ("account_", "mfa_")
OPEN_NAMES = {"sign-out-everywhere", "javascript-catalog", "health"}
SESSION_KEY = "second_factor_of"


class PersonZoneMiddleware:
    """Show times in the signed-in person's zone; they are stored in UTC."""

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if request.user.is_authenticated:
            with timezone.override(request.user.zone):
                return self.get_response(request)
        return self.get_response(request)


class PersonLanguageMiddleware:
    """Speak the language that the signed-in person chose; without a choice it stays as the browser asks.

    LocaleMiddleware, further out, names in Content-Language what is active at the end, and begins each request anew.
    """

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        chosen = request.user.language if request.user.is_authenticated else ""
        if chosen in dict(settings.LANGUAGES):
            translation.activate(chosen)
            request.LANGUAGE_CODE = translation.get_language()
        return self.get_response(request)


class CoachMfaMiddleware:
    """Send members of a practice that requires a second factor to set one up before they see anything.

    The session remembers that its user has one, so a request costs no query for it; accounts/signals.py makes it
    forget when the factor is removed. Whoever has none costs the membership query that the page needs anyway. Rows
    of allauth.mfa that are deleted behind allauth's back are noticed at the next sign-in.
    """

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: Callable[..., Any], args: tuple, kwargs: dict[str, Any]
    ) -> HttpResponseBase | None:
        name = request.resolver_match.view_name or ""
        if name.startswith(OPEN_PREFIXES) or name in OPEN_NAMES or not request.user.is_authenticated:
            return None
        if request.session.get(SESSION_KEY) == request.user.pk:
            return None
        membership = access.membership_of(request.user)
        if membership is None or not membership.practice.require_coach_mfa:
            return None
        if is_mfa_enabled(request.user):
            request.session[SESSION_KEY] = request.user.pk
            return None
        if request.path.startswith("/api/"):
            return mfa_problem()
        return redirect("mfa_activate_totp")


def mfa_problem() -> JsonResponse:
    """Answer an API call in the shape of logbook/api/problems.py, which this room may not import."""
    body = {
        "type": "urn:sinewright:problem:mfa-required",
        "title": _("Set up a second factor to continue."),
        "status": 403,
        "code": "mfa-required",
    }
    return JsonResponse(body, status=403, content_type="application/problem+json")
