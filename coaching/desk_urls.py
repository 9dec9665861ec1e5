from django.http import Http404
from django.urls import path


def unbuilt(request, **kwargs):
    raise Http404


urlpatterns = [
    path("week/", unbuilt, name="board"),
    path("clients/<int:client_id>/", unbuilt, name="client-page"),
    path("methods/", unbuilt, name="methods"),
    path("methods/<slug:topic>/", unbuilt, name="method"),
    path("health/", unbuilt, name="health"),
]
