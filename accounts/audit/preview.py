"""Say that a page was sent, and answered well, without anything being changed: a preview, a what-if."""

from django.http import HttpResponse

MARK = "changed_nothing"


def changed_nothing(response: HttpResponse) -> HttpResponse:
    """Return the answer marked as one that kept nothing. The audit then holds it for a look, not for a change."""
    setattr(response, MARK, True)
    return response


def kept_something(response: HttpResponse) -> bool:
    return not getattr(response, MARK, False)
