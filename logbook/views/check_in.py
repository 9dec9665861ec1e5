"""How the client feels today."""

import uuid

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from accounts import access
from logbook.forms.check_in_form import ITEMS, CheckInForm
from logbook.forms.session_forms import BodyMassForm, fresh
from logbook.models import BodyMass, CheckIn
from programs.models import MuscleGroup


@login_required
@require_http_methods(["GET", "POST"])
def check_in(request: HttpRequest) -> HttpResponse:
    """Show today's check-in and save it; a second one of the day is an edit."""
    client = access.access_own_client(request.user)
    today = client.user.today()
    # The copy that a phone keeps is for days to come: it must not show today's answers then.
    kept = "X-Keep" in request.headers
    row = None if kept else CheckIn.objects.filter(client=client, date=today).first()
    names = ("sore_groups", "note", *ITEMS)
    initial = {"op": uuid.uuid4(), **({name: getattr(row, name) for name in names} if row else {})}
    groups = list(MuscleGroup.objects.values_list("slug", "name"))
    form = CheckInForm(request.POST if request.method == "POST" else None, initial=initial, groups=groups)
    if request.method == "POST" and form.is_valid() and form.save(client, date=today):
        messages.success(request, _("Check-in saved."))
        return redirect("today")
    mass = BodyMass.objects.filter(client=client).first()
    context = {
        "room": "today",
        "form": form,
        "row": row,
        "today": today,
        "mass": mass,
        "items": ITEMS,
        "groups": dict(groups),
        "mass_form": fresh(BodyMassForm, unit=client.user.load_unit),
    }
    return render(request, "logbook/check_in.html", context, status=422 if form.errors else 200)
