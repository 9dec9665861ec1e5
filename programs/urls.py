"""Addresses of the programs room: the library (exercises, equipment, anatomy) and programs with their assignments."""

from django.urls import include, path

urlpatterns = [
    path("", include("programs.urls_library")),
    path("", include("programs.urls_programs")),
]
