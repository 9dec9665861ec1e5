"""What someone sees after too many failed sign-ins."""

import datetime as dt
from typing import Any

from axes.handlers.proxy import AxesProxyHandler
from axes.helpers import get_cool_off
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone


def ends_at(request: HttpRequest, credentials: dict[str, Any] | None) -> dt.datetime:
    """Return when the lockout of this name at this address ends: the last counted failure plus the wait."""
    counted = AxesProxyHandler.get_implementation().get_user_attempts(request, credentials)
    failures = [row.attempt_time for rows in counted for row in rows]
    return max(failures, default=timezone.now()) + get_cool_off(request)


def locked_out(
    request: HttpRequest, response: HttpResponse | None = None, credentials: dict[str, Any] | None = None
) -> HttpResponse:
    """Say that sign-in is locked and when to try again. It says the same for addresses without an account."""
    end = ends_at(request, credentials)
    seconds = max(0.0, (end - timezone.now()).total_seconds())
    minutes = max(1, -int(-seconds // 60))
    page = render(request, "accounts/locked_out.html", {"minutes": minutes}, status=429)
    page["Retry-After"] = str(int(seconds) + 1)
    return page
