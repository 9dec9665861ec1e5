"""The client's own progress."""

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from accounts import access
from coaching.reads.progress import progress_of


@login_required
@require_safe
def progress(request: HttpRequest) -> HttpResponse:
    """Show a client their estimated strength, weekly volume and body mass."""
    client = access.access_own_client(request.user)
    today = client.user.today()
    found = progress_of(client, request.GET.get("exercise"), today)
    context = {"room": "history", "progress": found, "strength": found.strength, "words": found.words}
    return render(request, "coaching/progress.html", context)
