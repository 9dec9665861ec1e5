"""The screening questions on the phone, and what follows from the answers."""

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from accounts import access
from logbook.forms.screening_form import ScreeningForm
from logbook.reads.screening import standing_of
from logbook.screening_questions import OUTCOMES, worded
from logbook.services.screening import screening_answer


@login_required
@require_http_methods(["GET", "POST"])
def screening(request: HttpRequest) -> HttpResponse:
    """Ask, or show what the latest answers mean; `?again=yes` asks anew."""
    client = access.access_own_client(request.user)
    form = ScreeningForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        screening_answer(
            client=client, answers=form.answers(), at=timezone.now(), note=form.cleaned_data["note"].strip()
        )
        return redirect("screening")
    standing = standing_of(client, today=client.user.today())
    latest = standing.screening
    asking = request.method == "POST" or latest is None or standing.state == "again" or "again" in request.GET
    context = {
        "room": "today",
        "form": form,
        "first_wrong": next((name for name in form.fields if name in form.errors), ""),
        "asking": asking,
        "standing": standing,
        "latest": latest,
        "words": OUTCOMES.get(latest.outcome, "") if latest else "",
        "because": worded(latest.version, latest.because) if latest else [],
        "clearance": latest.clearances.select_related("recorded_by").first() if latest else None,
    }
    return render(request, "logbook/screening.html", context, status=422 if form.errors else 200)
