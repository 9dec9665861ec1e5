"""One exercise: everything for a coach, what to do and what to mind for a client."""

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from accounts import access
from programs.models import Exercise
from programs.services.exercise_rows import trained
from programs.services.exercise_sheet import exercise_sheet


@login_required
@require_safe
def exercise_detail(request: HttpRequest, exercise_id: int) -> HttpResponse:
    exercise = access.access_read(
        Exercise.objects.select_related("equipment", "practice"), request.user, pk=exercise_id
    )
    membership = access.membership_of(request.user)
    context = {"room": "library", "exercise": exercise}
    if membership is None:
        direct, also = trained(exercise.credits.select_related("head__muscle", "head__group"))
        return render(request, "programs/exercise_plain.html", context | {"direct": direct, "also": also})
    context |= {
        "sheet": exercise_sheet(exercise, membership.practice),
        "actions": exercise.actions.all(),
        "own": exercise.practice_id == membership.practice_id,
    }
    return render(request, "programs/exercise_detail.html", context)
