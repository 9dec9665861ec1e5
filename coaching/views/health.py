"""Whether the parts answer. Says no name, address or secret."""

import logging

from django.conf import settings
from django.db import DatabaseError, connection
from django.db.models import Min
from django.http import HttpRequest, JsonResponse
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe
from redis import RedisError

from coaching.broker import ping
from logbook.models import RecomputeRequest

logger = logging.getLogger(__name__)


@never_cache
@require_safe
def health(request: HttpRequest) -> JsonResponse:
    """Answer {"database", "queue", "oldest_request_s"}; 503 when the database does not answer.

    A lost broker is told but is no failure of the site: sets are saved, and the sweep finds what waits.
    """
    body = {"database": "ok", "queue": queue_state(), "oldest_request_s": None}
    try:
        body["oldest_request_s"] = oldest_request()
    except DatabaseError as error:
        logger.error("The database does not answer: %s", error)
        body["database"] = "down"
    return JsonResponse(body, status=503 if body["database"] == "down" else 200)


def oldest_request() -> int | None:
    """Return for how many seconds the oldest recompute request has waited; None when none waits."""
    connection.ensure_connection()
    oldest = RecomputeRequest.objects.aggregate(oldest=Min("created_at"))["oldest"]
    return None if oldest is None else max(0, int((timezone.now() - oldest).total_seconds()))


def queue_state() -> str:
    """Return "in process" without a broker, else "ok" or "down"."""
    if not settings.CELERY_BROKER_URL:
        return "in process"
    try:
        ping(settings.CELERY_BROKER_URL)
    except RedisError as error:
        logger.error("The broker does not answer: %s", type(error).__name__)
        return "down"
    return "ok"
