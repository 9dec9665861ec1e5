"""Take an own exercise out of the choices, and back."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from accounts import access
from programs.models import Exercise
from programs.services import exercise_save


@login_required
@require_POST
def exercise_archive(request: HttpRequest, exercise_id: int) -> HttpResponse:
    exercise = access.access_write(Exercise.objects, request.user, pk=exercise_id)
    exercise_save.exercise_archive(exercise=exercise)
    messages.success(request, _("%(name)s is archived. Plans that use it keep it.") % {"name": exercise.name})
    return redirect("exercise-detail", exercise.pk)


@login_required
@require_POST
def exercise_restore(request: HttpRequest, exercise_id: int) -> HttpResponse:
    exercise = access.access_write(Exercise.objects, request.user, pk=exercise_id)
    exercise_save.exercise_restore(exercise=exercise)
    messages.success(request, _("%(name)s is offered again.") % {"name": exercise.name})
    return redirect("exercise-detail", exercise.pk)
