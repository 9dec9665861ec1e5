"""A table of past training as it was read: the page on which it is looked at, mended, and saved."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from accounts.models import Client, LoadUnit
from logbook.past.dates import DAY_FIRST, MONTH_FIRST
from logbook.past.reading import HowToRead
from logbook.services.past_seen import PastSeen
from programs.services.exercise_visible import exercises_of


def how_of(request: HttpRequest, client: Client) -> HowToRead:
    """Return how the person wants the table read."""
    return HowToRead(
        unit=_one_of(request, "unit", LoadUnit.values) or client.user.load_unit,
        today=client.user.today(),
        order=_one_of(request, "order", (DAY_FIRST, MONTH_FIRST)),
        sure=request.POST.get("sure") == "1",
    )


def look(request: HttpRequest, client: Client, seen: PastSeen, how: HowToRead, context: dict[str, Any]) -> HttpResponse:
    """Show what reading found. `context` has `packed` for a table that travels in the page, or `run`."""
    names = list(exercises_of(client.practice).values_list("name", flat=True)) if seen.unknown else []
    context |= {"plan": seen, "how": how, "units": LoadUnit.choices, "names": names}
    status = 200 if seen.is_right or request.method != "POST" else 422
    return render(request, "logbook/past/preview.html", context, status=status)


def _one_of(request: HttpRequest, name: str, allowed: Any) -> str:
    value = request.POST.get(name, "")
    return value if value in allowed else ""
