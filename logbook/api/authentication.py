"""Who calls the API: the person signed in on the page itself."""

from typing import Any

from django.conf import settings
from drf_spectacular.extensions import OpenApiAuthenticationExtension
from rest_framework import authentication


class SessionAuthentication(authentication.SessionAuthentication):
    """Answer 401 to someone who is not signed in, so that a phone knows to keep its entries and ask for sign-in."""

    def authenticate_header(self, request) -> str:
        return "Session"


class SessionScheme(OpenApiAuthenticationExtension):
    """Describe the above: the cookie of the sign-in page; writing also needs the X-CSRFToken header."""

    target_class = SessionAuthentication
    name = "session"

    def get_security_definition(self, auto_schema: Any) -> dict[str, str]:
        return {"type": "apiKey", "in": "cookie", "name": settings.SESSION_COOKIE_NAME}
