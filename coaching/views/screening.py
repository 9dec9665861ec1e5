"""What a client answered before training, and what a clinician said."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from accounts import access
from coaching.forms_screening import ClearanceForm
from coaching.reads.screening import rounds_of
from logbook.models import Screening
from logbook.reads.screening import standing_of
from logbook.services.screening import clearance_record

ROUNDS_A_PAGE = 5


@login_required
@require_http_methods(["GET", "POST"])
def client_screening(request: HttpRequest, client_id: int) -> HttpResponse:
    """Show the rounds of answers, newest first; record a clinician's word on the newest."""
    client = access.access_client_as_coach(request.user, client_id)
    today = client.user.today()
    standing = standing_of(client, today=today)
    form = ClearanceForm(request.POST if request.method == "POST" else None, today=today)
    if request.method == "POST":
        if standing.screening is None:
            raise Http404
        if form.is_valid():
            clearance_record(
                screening=standing.screening,
                recorded_by=request.user,
                **{name: form.cleaned_data[name] for name in ("cleared", "clinician", "said_on", "note")},
            )
            messages.success(request, _("Recorded. The client sees it on the phone."))
            return redirect("client-screening", client.pk)
    rows = Screening.objects.filter(client=client).prefetch_related("clearances__recorded_by")
    page = Paginator(rows, ROUNDS_A_PAGE).get_page(request.GET.get("page"))
    context = {
        "room": "clients",
        "client": client,
        "standing": standing,
        "rounds": rounds_of(page.object_list),
        "page": page,
        "form": form,
    }
    return render(request, "coaching/screening.html", context, status=422 if form.errors else 200)
