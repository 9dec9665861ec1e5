"""Answers that would leave a person before nothing: a form sent after the session ended, an address only forms know."""

from collections.abc import Callable
from urllib.parse import urlencode, urlsplit

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render, resolve_url
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django_htmx.http import HttpResponseClientRedirect

Handler = Callable[[HttpRequest], HttpResponse]


class SignedOutMiddleware:
    """Lead back to the page that the person was on, where sign-in would lead to the address of its form or fragment.

    Many such addresses answer only to POST, or only a piece of a page: nothing to come back to. A full page keeps the
    address it has.
    """

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        if not leads_to_sign_in(request, response):
            return response
        htmx = getattr(request, "htmx", False)
        if request.method in ("GET", "HEAD") and not htmx:
            return response
        if is_person_waiting(request):
            messages.warning(request, signed_out_words(request))
        sign_in = f"{resolve_url('account_login')}?{urlencode({'next': page_of(request)}, safe='/')}"
        if htmx:
            return HttpResponseClientRedirect(sign_in)
        response["Location"] = sign_in
        return response


class RefusedMethodMiddleware:
    """Put words on the empty answer to a method that an address does not take, for whoever opens it in a browser."""

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        if response.status_code != 405 or response.content or "text/html" not in request.headers.get("Accept", ""):
            return response
        page = render(request, "405.html", status=405)
        page["Allow"] = response["Allow"]
        return page


def leads_to_sign_in(request: HttpRequest, response: HttpResponse) -> bool:
    """Say whether somebody who is not signed in (any more) was sent to sign in; going there on purpose is a GET."""
    if response.status_code != 302 or request.user.is_authenticated:
        return False
    target = urlsplit(response["Location"])
    return target.path == resolve_url("account_login") and target.query.startswith("next=")


def is_person_waiting(request: HttpRequest) -> bool:
    """Say whether the answer will be looked at: a script's own fetch says in its headers that it is none."""
    return bool(getattr(request, "htmx", False)) or request.headers.get("Sec-Fetch-Mode", "navigate") == "navigate"


def signed_out_words(request: HttpRequest) -> str:
    """Return what happened, as it concerns the person."""
    if request.method in ("GET", "HEAD"):
        return _("You were signed out meanwhile. Sign in to go on.")
    return _("You were signed out meanwhile, so nothing was saved. Sign in and send it again.")


def page_of(request: HttpRequest) -> str:
    """Return the path of the page that sent the request, or the first page where none of ours is named."""
    named = request.headers.get("HX-Current-URL") or request.headers.get("Referer", "")
    if not url_has_allowed_host_and_scheme(named, {request.get_host()}, require_https=request.is_secure()):
        return resolve_url("home")
    parts = urlsplit(named)
    return f"{parts.path}?{parts.query}" if parts.query else parts.path or resolve_url("home")
