from django.http import Http404
from django.urls import path


def unbuilt(request, **kwargs):
    raise Http404


urlpatterns = [
    path("", unbuilt, name="home"),
    path("you/", unbuilt, name="profile"),
    path("practice/", unbuilt, name="practice"),
    path("clients/", unbuilt, name="client-list"),
]
