"""Take own equipment out of the choices, and back."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from accounts import access
from programs.models import Equipment
from programs.services import equipment_save


@login_required
@require_POST
def equipment_archive(request: HttpRequest, equipment_id: int) -> HttpResponse:
    equipment = access.access_write(Equipment.objects, request.user, pk=equipment_id)
    equipment_save.equipment_archive(equipment=equipment)
    messages.success(request, _("%(name)s is archived. Exercises that use it keep it.") % {"name": equipment.name})
    return redirect("equipment-list")


@login_required
@require_POST
def equipment_restore(request: HttpRequest, equipment_id: int) -> HttpResponse:
    equipment = access.access_write(Equipment.objects, request.user, pk=equipment_id)
    equipment_save.equipment_restore(equipment=equipment)
    messages.success(request, _("%(name)s is offered again.") % {"name": equipment.name})
    return redirect("equipment-detail", equipment.pk)
