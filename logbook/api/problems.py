"""Problem details (RFC 9457): every error of the API has one shape."""

from typing import Any

from django.core.exceptions import PermissionDenied
from django.http import Http404
from django.utils.translation import gettext as _
from rest_framework import exceptions
from rest_framework.response import Response
from rest_framework.views import exception_handler as drf_handler

MEDIA_TYPE = "application/problem+json"


def problem(status: int, code: str, title: str, **members: Any) -> dict[str, Any]:
    """Return a problem body; `code` is stable and meant for programs, `title` is in the reader's language."""
    return {"type": f"urn:sinewright:problem:{code}", "title": title, "status": status, "code": code, **members}


def exception_handler(error: Exception, context: dict[str, Any]) -> Response | None:
    """Turn what a view raised into a problem body; None leaves a fault of ours to the server's 500."""
    response = drf_handler(error, context)
    if response is None:
        return None
    if isinstance(error, exceptions.ValidationError):
        body = problem(response.status_code, "invalid", _("Some values cannot be saved."), errors=response.data)
    else:
        if isinstance(error, Http404):
            error = exceptions.NotFound()
        elif isinstance(error, PermissionDenied):
            error = exceptions.PermissionDenied()
        body = problem(response.status_code, error.default_code, str(error.detail))
    response.data = body
    response.content_type = MEDIA_TYPE
    return response
