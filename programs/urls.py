from django.http import Http404
from django.urls import path


def unbuilt(request, **kwargs):
    raise Http404


urlpatterns = [
    path("exercises/", unbuilt, name="exercise-list"),
    path("exercises/<int:exercise_id>/", unbuilt, name="exercise-detail"),
    path("programs/", unbuilt, name="program-list"),
    path("programs/<int:program_id>/", unbuilt, name="program-editor"),
    path("assignments/<int:assignment_id>/", unbuilt, name="assignment-detail"),
]
