"""The library's list, filtered."""

from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe
from django.views.decorators.vary import vary_on_headers

from accounts import access
from programs.forms.exercise_filter import ExerciseFilterForm
from programs.models import Exercise
from programs.services.exercise_rows import exercise_rows
from programs.services.exercise_search import exercise_search
from programs.services.grades import WORDS
from programs.views.library import wants_part

PER_PAGE = 40


@login_required
@require_safe
@vary_on_headers("HX-Request")  # or a step back in the browser would show the bare part of the page
def exercise_list(request: HttpRequest) -> HttpResponse:
    coaching = access.membership_of(request.user) is not None
    practice = access.practice_of(request.user)
    form = ExerciseFilterForm(request.GET, practice=practice, coaching=coaching)
    found = exercise_search(Exercise.objects.visible_to(request.user), form.wanted(), practice)
    page = Paginator(found, PER_PAGE).get_page(request.GET.get("page"))
    template = "programs/exercise_list.html" + ("#results" if wants_part(request) else "")
    context = {
        "room": "library",
        "form": form,
        "page": page,
        "rows": exercise_rows(page),
        "coaching": coaching,
        "words": WORDS.items(),
    }
    return render(request, template, context)
