"""The muscles that the library speaks of."""

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from accounts import access
from programs.services.library_anatomy import anatomy_lines


@login_required
@require_safe
def anatomy(request: HttpRequest) -> HttpResponse:
    """Not paged: an anatomical list has a fixed length (some 50 muscles) and is read and searched as a whole."""
    lines = anatomy_lines(access.practice_of(request.user))
    return render(request, "programs/anatomy.html", {"room": "library", "lines": lines})
