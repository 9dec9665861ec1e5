"""Per-request duties: the person's time zone, and a second factor for coaches."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.utils import timezone

Handler = Callable[[HttpRequest], HttpResponse]


class PersonZoneMiddleware:
    """Show times in the signed-in person's zone; they are stored in UTC."""

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if request.user.is_authenticated:
            with timezone.override(request.user.zone):
                return self.get_response(request)
        return self.get_response(request)


class CoachMfaMiddleware:
    """Placeholder replaced in the people room."""

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)
