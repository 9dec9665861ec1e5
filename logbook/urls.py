from django.http import Http404
from django.urls import include, path


def unbuilt(request, **kwargs):
    raise Http404


urlpatterns = [
    path("api/v1/", include("logbook.api.urls")),
    path("train/", unbuilt, name="today"),
    path("train/plan/", unbuilt, name="plan"),
    path("train/done/", unbuilt, name="history"),
]
