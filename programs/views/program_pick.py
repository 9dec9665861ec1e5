"""Choose an exercise for a slot: the list under the editor's search field, and the page that needs no script."""

from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from accounts.access import access_write
from programs.document import EditError, Slot, document_from_json, find
from programs.document.model import Day
from programs.models import Program
from programs.services.program_exercises import replacements_for, search_exercises
from programs.services.tally_facts import load_facts
from programs.services.trial import trial_of


@login_required
@require_GET
def program_pick(request: HttpRequest, program_id: int) -> HttpResponse:
    """Offer exercises for a day (`day`), or for the place of another one (`slot`): its substitutes first."""
    program = access_write(Program.objects.all(), request.user, pk=program_id)
    trial = trial_of(program, request.user)
    words = request.GET.get("q", "").strip()[:80]
    try:
        place = find(
            document_from_json(trial.document if trial else program.document),
            request.GET.get("slot") or request.GET.get("day", ""),
            Slot,
            Day,
        )
    except EditError as error:
        raise Http404 from error
    current = None
    if isinstance(place.node, Slot):
        current = load_facts([place.node.exercise]).get(place.node.exercise)
        choices = replacements_for(request.user, current, words) if current else search_exercises(request.user, words)
        do = f"swap;slot={place.node.key}"
    else:
        choices = search_exercises(request.user, words)
        do = f"add-slot;day={place.node.key}"
    context = {
        "program": program,
        "trial": trial,
        "place": place,
        "current": current,
        "choices": choices,
        "do": do,
        "q": words,
        "room": "programs",
    }
    part = "#options" if request.htmx else ""
    return render(request, f"programs/program_pick.html{part}", context)
