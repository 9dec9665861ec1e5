"""One piece of equipment: every load it makes, and what is done with it."""

from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from accounts import access
from programs.models import Equipment, Exercise
from programs.services.equipment_text import ladder_words, load_text

PER_PAGE = 60


@login_required
@require_safe
def equipment_detail(request: HttpRequest, equipment_id: int) -> HttpResponse:
    equipment = access.access_read(Equipment.objects, request.user, pk=equipment_id)
    exercises = Exercise.objects.visible_to(request.user).filter(equipment=equipment, archived_at=None)
    membership = access.membership_of(request.user)
    context = {
        "room": "library",
        "equipment": equipment,
        "loads": load_text(equipment.ladder),
        "made_of": ladder_words(equipment.ladder),
        "page": Paginator(exercises, PER_PAGE).get_page(request.GET.get("page")),
        "own": membership is not None and equipment.practice_id == membership.practice_id,
    }
    return render(request, "programs/equipment_detail.html", context)
