"""One client's weekly targets: training status, priorities, and ranges of the coach's own."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from accounts.access import access_client_as_coach
from programs.models import MuscleGroup
from programs.services.targets import client_targets_set
from programs.views.program_targets_form import TargetsForm


@login_required
@require_http_methods(["GET", "POST"])
def client_targets(request: HttpRequest, client_id: int) -> HttpResponse:
    """Show and change how many sets a week each muscle group of a client should get."""
    client = access_client_as_coach(request.user, client_id)
    form = TargetsForm(request.POST or None, client=client, groups=list(MuscleGroup.objects.all()))
    if request.method == "POST" and form.is_valid():
        client_targets_set(
            client=client,
            training_status=form.cleaned_data["training_status"],
            priorities=form.priorities(),
            overrides=form.overrides(),
            now=timezone.now(),
        )
        messages.success(request, _("Saved. This week is judged by these ranges now."))
        return redirect("client-targets", client.pk)
    context = {"client": client, "form": form, "rows": form.rows(), "room": "clients"}
    return render(request, "programs/program_targets.html", context, status=422 if form.errors else 200)
