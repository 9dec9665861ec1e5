"""Whether the parts answer. Says no name, address or secret."""

import datetime as dt
import logging
from typing import Any

from django.conf import settings
from django.db import DatabaseError, connection
from django.db.models import Min
from django.http import HttpRequest, JsonResponse
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe
from redis import RedisError

from coaching.broker import ping
from coaching.listening import listened_to
from logbook.models import RecomputeRequest
from programs.models import DraftRun

logger = logging.getLogger(__name__)


@never_cache
@require_safe
def health(request: HttpRequest) -> JsonResponse:
    """Answer {"database", "queue", "workers", "oldest_request_s", "oldest_draft_s"}; 503 when the database does not
    answer.

    A lost broker, or a queue that no worker listens to, is told but is no failure of the site: sets are saved, and the
    sweep finds what waits.
    """
    queue = queue_state()
    body: dict[str, Any] = {"database": "ok", "queue": queue, "workers": workers() if queue == "ok" else None}
    body |= {"oldest_request_s": None, "oldest_draft_s": None}
    try:
        body["oldest_request_s"] = oldest_request()
        body["oldest_draft_s"] = oldest_draft()
    except DatabaseError as error:
        logger.error("The database does not answer: %s", error)
        body["database"] = "down"
    return JsonResponse(body, status=503 if body["database"] == "down" else 200)


def oldest_request() -> int | None:
    """Return for how many seconds the oldest recompute request has waited; None when none waits."""
    connection.ensure_connection()
    return _age(RecomputeRequest.objects.aggregate(oldest=Min("created_at"))["oldest"])


def oldest_draft() -> int | None:
    """Return for how many seconds the oldest draft has waited that no worker has; None when none waits."""
    waiting = DraftRun.objects.filter(state=DraftRun.State.QUEUED)
    return _age(waiting.aggregate(oldest=Min("created_at"))["oldest"])


def _age(since: dt.datetime | None) -> int | None:
    return None if since is None else max(0, int((timezone.now() - since).total_seconds()))


def workers() -> dict[str, str] | None:
    """Return "ok" or "none" for each queue: whether a worker listens to it; None when that cannot be asked."""
    try:
        return {name: "ok" if heard else "none" for name, heard in listened_to().items()}
    except RedisError as error:
        logger.error("The cache does not answer: %s", type(error).__name__)
        return None


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
