"""What makes the phone's pages an app: the service worker, the manifest, and what the phone itself keeps."""

import json

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.templatetags.static import static
from django.urls import reverse
from django.utils.translation import get_language
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_GET

from accounts import access
from logbook.phone_files import phone_files, spoken_release
from logbook.reads.kept import kept_pages

PAPER, INK = "#fcfbf8", "#1a222c"


@require_GET
@never_cache
def service_worker(request: HttpRequest) -> HttpResponse:
    """Serve the worker from the root, so that its scope is the whole site."""
    files = [*phone_files(), reverse("javascript-catalog")]
    # A phone whose person takes another language gets another worker, and with it the words of its scripts anew.
    kept = {
        "release": spoken_release(),
        "start": reverse("on-this-phone"),
        "files": files,
        "language": get_language(),
    }
    # JSON of our own addresses, which is JavaScript as it stands.
    context = {"kept": json.dumps(kept, indent=2)}
    return render(request, "logbook/phone/sw.js", context, content_type="text/javascript; charset=utf-8")


@require_GET
def manifest(request: HttpRequest) -> JsonResponse:
    """Describe the app to the phone's home screen."""
    icons = [
        {"src": static("icons/mark.svg"), "sizes": "any", "type": "image/svg+xml"},
        *(
            {"src": static(f"icons/app-{size}.png"), "sizes": f"{size}x{size}", "type": "image/png"}
            for size in (192, 512)
        ),
        {
            "src": static("icons/app-maskable-512.png"),
            "sizes": "512x512",
            "type": "image/png",
            "purpose": "maskable",
        },
    ]
    body = {
        "id": "/",
        "name": "Sinewright",
        "short_name": "Sinewright",
        "description": _("Your training plan and log, with and without a connection."),
        "lang": get_language(),
        "start_url": reverse("today"),
        "scope": "/",
        "display": "standalone",
        "background_color": PAPER,
        "theme_color": INK,
        "icons": icons,
    }
    return JsonResponse(body, content_type="application/manifest+json")


@require_GET
@never_cache
def on_this_phone(request: HttpRequest) -> HttpResponse:
    """Show what the phone keeps, and open it without a connection; the same page for everyone, filled by the phone.

    SECURITY: the phone stores it as fetched without a cookie; nothing of a person may be written into it but their id.
    """
    return render(request, "logbook/phone/here.html", {"room": "today"})


@login_required
@require_GET
@never_cache
def pages(request: HttpRequest) -> JsonResponse:
    """List the pages that the client's phone should keep."""
    client = access.access_own_client(request.user)
    today = client.user.today()
    body = {"person": request.user.pk, "release": spoken_release(), "from": today.isoformat()}
    return JsonResponse(body | {"pages": kept_pages(client, today=today)})
