"""POST /api/v1/operations/: many small writes, each answered on its own."""

from collections import Counter
from typing import Any

from django.utils import timezone
from django.utils.translation import gettext as _
from drf_spectacular.utils import OpenApiResponse, extend_schema
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from accounts import access
from logbook.api.problems import MEDIA_TYPE, problem
from logbook.api.shapes import Answers, Batch, Problem
from logbook.operations.refused import Refused
from logbook.services.batch import MOST_OPERATIONS, operations_apply

# 200 operations with the longest notes stay well under it.
MOST_BYTES = 2_000_000


class Operations(APIView):
    """Send what was logged on the phone; send it again after a lost answer, under the same ids, as often as needed."""

    @extend_schema(
        request=Batch,
        responses={
            200: OpenApiResponse(Answers, "Every operation is saved, now or before."),
            207: OpenApiResponse(Answers, "Some are saved; see each answer."),
            422: OpenApiResponse(Answers, "Every operation was refused, and nothing was saved."),
            503: OpenApiResponse(Answers, "Nothing could be saved just now; keep the operations and try again."),
            (400, MEDIA_TYPE): OpenApiResponse(Problem, "The body is not a list of operations."),
            (401, MEDIA_TYPE): OpenApiResponse(Problem, "Sign in again; keep the operations."),
            (403, MEDIA_TYPE): OpenApiResponse(Problem, "X-Person names somebody else; keep the operations."),
        },
    )
    def post(self, request: Request) -> Response:
        """Carry out up to 200 operations, oldest first, each in its own transaction.

        `at` is the phone's own clock with its offset: not more than five minutes ahead of the server's, not before the
        year 2000. Of two edits of the same thing the later by this clock stands, and the other is kept beside it.
        """
        client = access.access_own_client(request.user)
        if request.headers.get("X-Person", str(request.user.pk)) != str(request.user.pk):
            # A page of whoever was signed in before must not send its entries in the name of who is signed in now.
            wrong = problem(403, "another_person", _("Somebody else is signed in now. Sign in again."))
            return Response(wrong, status=403, content_type=MEDIA_TYPE)
        wrong = _too_large(request) or _malformed(request)
        if wrong:
            return Response(wrong, status=wrong["status"], content_type=MEDIA_TYPE)
        answers = operations_apply(client=client, operations=request.data["operations"], now=timezone.now())
        statuses = Counter(answer["status"] for answer in answers)
        return Response({"results": [_shown(answer) for answer in answers]}, status=_status(statuses))


def _too_large(request: Request) -> dict[str, Any] | None:
    if int(request.META.get("CONTENT_LENGTH") or 0) > MOST_BYTES:
        return problem(413, "too_large", _("The body is too large. Send fewer operations at once."))
    return None


def _malformed(request: Request) -> dict[str, Any] | None:
    try:
        body = request.data
    except RecursionError:  # a thousand nested brackets
        return problem(400, "parse_error", _("The body is nested too deeply."))
    if not isinstance(body, dict) or not isinstance(body.get("operations"), list):
        return problem(400, "not_a_list", _("The body must be an object with a list named operations."))
    if len(body["operations"]) > MOST_OPERATIONS:
        return problem(400, "too_many_operations", _("At most 200 operations at once."))
    return None


def _shown(answer: dict[str, Any]) -> dict[str, Any]:
    refusal: Refused | None = answer.pop("refusal", None)
    if refusal is not None:
        members = {**({"errors": refusal.errors} if refusal.errors else {}), **refusal.members}
        answer["problem"] = problem(refusal.status, refusal.code, refusal.title, **members)
    return answer


def _status(statuses: Counter[str]) -> int:
    done = statuses["saved"] + statuses["replayed"]
    if done == statuses.total():
        return 200
    if done:
        return 207
    # Nothing was saved: refused for good, or not now. One of each is a mixed answer again.
    if statuses["retry"] and statuses["refused"]:
        return 207
    return 503 if statuses["retry"] else 422
