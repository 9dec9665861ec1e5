"""The reading side of the API."""

from django.db.models import Count, Prefetch, Q, QuerySet
from drf_spectacular.utils import extend_schema
from rest_framework import generics
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from accounts import access
from logbook.api import shapes
from logbook.api.who import CLIENT, client_read
from logbook.models import CheckIn, Comment, Session, SetLog
from logbook.reads.upcoming import upcoming

STANDING = Count("sets", filter=Q(sets__deleted_at=None, sets__warm_up=False))


class Plan(APIView):
    @extend_schema(parameters=[CLIENT], responses=shapes.PlanShape)
    def get(self, request: Request) -> Response:
        """Return the next 14 days of planned sessions with all that is needed to do them."""
        client = client_read(request)
        today = client.user.today()
        return Response(upcoming(client, today=today))


@extend_schema(parameters=[CLIENT])
class SessionList(generics.ListAPIView):
    """List a client's performed sessions, latest first."""

    serializer_class = shapes.SessionShape
    queryset = Session.objects.none()

    def get_queryset(self) -> QuerySet[Session]:
        rows = Session.objects.visible_to(self.request.user).filter(client=client_read(self.request))
        # Said again: counting drops the model's own order.
        return rows.annotate(sets_logged=STANDING).order_by("-started_at", "pk")


class RetrieveView(generics.RetrieveAPIView):
    """One row of a client, of which the audit hears."""

    def get_object(self) -> Session | SetLog:
        row = super().get_object()
        access.note_opened(self.request.user, row)
        return row


class SessionDetail(RetrieveView):
    """Return one session with every set, those taken out too, and their earlier values."""

    serializer_class = shapes.SessionDetailShape
    queryset = Session.objects.none()

    def get_queryset(self) -> QuerySet[Session]:
        sets = Prefetch("sets", queryset=SetLog.objects.prefetch_related("history"))
        return Session.objects.visible_to(self.request.user).annotate(sets_logged=STANDING).prefetch_related(sets)


class SetDetail(RetrieveView):
    """Return one set with its earlier values."""

    serializer_class = shapes.SetDetailShape
    queryset = SetLog.objects.none()

    def get_queryset(self) -> QuerySet[SetLog]:
        return SetLog.objects.visible_to(self.request.user).prefetch_related("history")


@extend_schema(parameters=[CLIENT])
class CheckInList(generics.ListAPIView):
    """List a client's check-ins, latest first."""

    serializer_class = shapes.CheckInShape
    queryset = CheckIn.objects.none()

    def get_queryset(self) -> QuerySet[CheckIn]:
        return CheckIn.objects.visible_to(self.request.user).filter(client=client_read(self.request))


@extend_schema(parameters=[CLIENT])
class CommentList(generics.ListAPIView):
    """List a client's and their coaches' comments, latest first; `is_new`: the person signed in has not read it."""

    serializer_class = shapes.CommentShape
    queryset = Comment.objects.none()

    def get_queryset(self) -> QuerySet[Comment]:
        rows = Comment.objects.visible_to(self.request.user).filter(client=client_read(self.request))
        return rows.marked_for(self.request.user).select_related("author")
