from django.urls import path
from drf_spectacular.views import SpectacularAPIView
from rest_framework.permissions import IsAuthenticated

from logbook.api import views
from logbook.api.operations import Operations

app_name = "api-v1"
urlpatterns = [
    path("operations/", Operations.as_view(), name="operations"),
    path("plan/", views.Plan.as_view(), name="plan"),
    path("sessions/", views.SessionList.as_view(), name="session-list"),
    path("sessions/<uuid:pk>/", views.SessionDetail.as_view(), name="session-detail"),
    path("sets/<uuid:pk>/", views.SetDetail.as_view(), name="set-detail"),
    path("check-ins/", views.CheckInList.as_view(), name="check-in-list"),
    path("comments/", views.CommentList.as_view(), name="comment-list"),
    path("schema/", SpectacularAPIView.as_view(permission_classes=[IsAuthenticated]), name="schema"),
]
