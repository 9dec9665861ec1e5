"""Write a practice's own exercise, new, copied or changed."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from accounts import access
from accounts.models import Practice
from programs.forms.exercise_editor import ExerciseEditor
from programs.models import Exercise
from programs.services.exercise_save import exercise_save
from programs.views.library import coach_of

ROWS = ("credits", "links")


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def exercise_create(request: HttpRequest) -> HttpResponse:
    """Start empty, or from the exercise that `?copy=` names."""
    practice = coach_of(request).practice
    source = None
    if request.GET.get("copy", "").isdecimal():
        source = access.access_read(Exercise.objects, request.user, pk=int(request.GET["copy"]))
    return _write(request, practice, source=source)


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def exercise_edit(request: HttpRequest, exercise_id: int) -> HttpResponse:
    exercise = access.access_write(Exercise.objects.select_related("practice"), request.user, pk=exercise_id)
    return _write(request, exercise.practice, instance=exercise)


def _write(
    request: HttpRequest, practice: Practice, *, instance: Exercise | None = None, source: Exercise | None = None
) -> HttpResponse:
    data = request.POST if request.method == "POST" else None
    more = request.POST.get("more", "")
    more = more if more in ROWS else ""
    editor = ExerciseEditor(practice=practice, instance=instance, source=source or instance, data=data, more=more)
    if data is not None and not more and editor.is_valid():
        exercise = exercise_save(
            practice=practice,
            exercise=instance,
            columns=editor.form.columns(),
            actions=editor.form.trained(),
            credits=editor.credit_inputs(),
            links=editor.link_inputs(),
            limits=editor.form.limits(),
        )
        messages.success(request, _("%(name)s is saved.") % {"name": exercise.name})
        return redirect("exercise-detail", exercise.pk)
    wrong = data is not None and not more
    context = {"room": "library", "editor": editor, "instance": instance, "source": source, "wrong": wrong}
    return render(request, "programs/exercise_edit.html", context, status=422 if wrong else 200)
