"""Write a practice's own equipment."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from accounts import access
from accounts.models import Practice
from programs.forms.equipment import EquipmentForm
from programs.models import Equipment
from programs.services.equipment_save import equipment_save
from programs.views.library import coach_of


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def equipment_create(request: HttpRequest) -> HttpResponse:
    return _write(request, coach_of(request).practice)


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def equipment_edit(request: HttpRequest, equipment_id: int) -> HttpResponse:
    equipment = access.access_write(Equipment.objects.select_related("practice"), request.user, pk=equipment_id)
    return _write(request, equipment.practice, equipment)


def _write(request: HttpRequest, practice: Practice, equipment: Equipment | None = None) -> HttpResponse:
    form = EquipmentForm(request.POST if request.method == "POST" else None, instance=equipment)
    if request.method == "POST" and form.is_valid():
        saved = equipment_save(
            practice=practice,
            equipment=equipment,
            **{name: form.cleaned_data[name] for name in ("name", "kind", "ladder")},
        )
        messages.success(request, _("%(name)s is saved. Check the loads below.") % {"name": saved.name})
        return redirect("equipment-detail", saved.pk)
    context = {"room": "library", "form": form, "equipment": equipment}
    return render(request, "programs/equipment_edit.html", context, status=422 if form.errors else 200)
