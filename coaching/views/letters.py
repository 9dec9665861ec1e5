"""Turning the weekly letter off from the letter itself."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.cache import never_cache
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_http_methods

from accounts.models import User
from coaching.letters.send import user_of


# SECURITY: without a token against forged requests, since mail programs post here by themselves (RFC 8058). The signed
# address is what entitles, and all that it does is to stop a letter.
@csrf_exempt
@never_cache
@require_http_methods(["GET", "POST"])
def letters_stop(request: HttpRequest, token: str) -> HttpResponse:
    """Ask once, then turn the letter off; a GET changes nothing, since mail scanners follow links."""
    user = user_of(token)
    if user is None:
        raise Http404
    if request.method == "POST":
        User.objects.filter(pk=user.pk).update(weekly_letter=False)
    return render(request, "coaching/letters/stop.html", {"stopped": request.method == "POST"})
