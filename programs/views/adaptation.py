"""Take one difference of a client's copy back."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST

from accounts.access import access_write
from programs.models import Adaptation
from programs.services.adaptation_undo import AdaptationError, adaptation_undo


@login_required
@require_POST
def adaptation_take_back(request: HttpRequest, adaptation_id: int) -> HttpResponse:
    """Undo it on the sessions to come, and go back to the plan."""
    row = access_write(Adaptation.objects, request.user, pk=adaptation_id)
    try:
        changed = adaptation_undo(adaptation=row, user=request.user)
    except AdaptationError as refused:
        messages.error(request, str(refused))
    else:
        words = ngettext("Undone; %(n)s session changed.", "Undone; %(n)s sessions changed.", changed)
        messages.success(request, words % {"n": changed})
    return redirect("assignment-detail", row.assignment_id)
