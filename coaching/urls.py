"""Every address of the site. Each room keeps its own list; tests/test_access_walk.py demands a policy for each name."""

from django.urls import include, path
from django.views.i18n import JavaScriptCatalog

urlpatterns = [
    path("jsi18n/", JavaScriptCatalog.as_view(), name="javascript-catalog"),
    path("account/", include("allauth.urls")),
    path("", include("accounts.urls")),
    path("", include("programs.urls")),
    path("", include("logbook.urls")),
    path("", include("coaching.desk_urls")),
]
