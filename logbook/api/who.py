"""Whose data a request reads."""

from django.utils.translation import gettext as _
from drf_spectacular.utils import OpenApiParameter
from rest_framework.exceptions import ValidationError
from rest_framework.request import Request

from accounts import access
from accounts.models import Client

CLIENT = OpenApiParameter(
    "client", int, description="A coach names the client to read. Left out: the person signed in."
)


def client_read(request: Request) -> Client:
    """Return the client named by ?client= if the user may read it, else the user's own record; 404 otherwise."""
    named = request.query_params.get("client")
    if named is None:
        return access.access_own_client(request.user)
    if not (named.isascii() and named.isdigit() and len(named) < 10):
        raise ValidationError({"client": [_("This must be a whole number.")]})
    return access.access_client(request.user, int(named))
