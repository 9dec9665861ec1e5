"""How the numbers are made. Readable by everyone: a number that may not be questioned is not worth much."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from coaching.reads.methods import INDEX, methods


@require_safe
def method_list(request: HttpRequest) -> HttpResponse:
    """List the methods pages."""
    pages = methods()
    about = pages.get(INDEX)
    listed = about.html if about else ""
    # The index names the pages in an order of its own; one that it forgot is still reachable.
    rest = [page for page in pages.values() if page is not about]
    topics = [page for page in rest if reverse("method", args=[page.topic]) not in listed]
    return render(request, "coaching/methods.html", {"about": about, "topics": topics})


@require_safe
def method_page(request: HttpRequest, topic: str) -> HttpResponse:
    """Show one methods page."""
    page = methods().get(topic)
    if page is None or topic == INDEX:
        raise Http404
    return render(request, "coaching/method.html", {"method": page})
