"""A practice's own grades for an exercise of the library; any coach of the practice gives them, and is named."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from accounts import access
from programs.forms.grades import GradesForm
from programs.models import Exercise, GradeOverride
from programs.services.grades_save import grades_save
from programs.views.library import coach_of


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def exercise_grades(request: HttpRequest, exercise_id: int) -> HttpResponse:
    exercise = access.access_read(Exercise.objects.select_related("equipment"), request.user, pk=exercise_id)
    practice = coach_of(request).practice
    if exercise.practice_id:
        raise Http404  # an own exercise carries its grades itself: there is nothing to differ from
    rows = GradeOverride.objects.visible_to(request.user).filter(exercise=exercise).select_related("author")
    own = {row.grade: row for row in rows}
    form = GradesForm(request.POST if request.method == "POST" else None, exercise=exercise, own=own)
    if request.method == "POST" and form.is_valid():
        grades_save(practice=practice, exercise=exercise, author=request.user, grades=form.grades())
        messages.success(request, _("The practice's grades are saved."))
        return redirect(reverse("exercise-detail", args=[exercise.pk]) + "#grades")
    context = {"room": "library", "exercise": exercise, "form": form, "own": own}
    return render(request, "programs/exercise_grades.html", context, status=422 if form.errors else 200)
