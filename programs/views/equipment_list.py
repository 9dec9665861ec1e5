"""What the practice trains with."""

from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.db.models import Count, F, Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from accounts import access
from programs.models import Equipment
from programs.services.equipment_text import load_text

PER_PAGE = 50


@login_required
@require_safe
def equipment_list(request: HttpRequest) -> HttpResponse:
    practice = access.practice_of(request.user)
    mine = Q(exercises__practice=None) | Q(exercises__practice=practice)
    rows = Equipment.objects.visible_to(request.user).annotate(
        used=Count("exercises", filter=mine & Q(exercises__archived_at=None))
    )
    # Own first, then the library's; what is archived last.
    rows = rows.order_by(F("archived_at").asc(nulls_first=True), F("practice").desc(nulls_last=True), "name")
    page = Paginator(rows, PER_PAGE).get_page(request.GET.get("page"))
    context = {
        "room": "library",
        "page": page,
        "rows": [(row, load_text(row.ladder)) for row in page],
        "coaching": access.membership_of(request.user) is not None,
    }
    return render(request, "programs/equipment_list.html", context)
