"""Comments as the pages show them: a page of them, and what a person has not read yet."""

from dataclasses import dataclass
from typing import Any

from django.core.paginator import Page, Paginator

from accounts.models import Client, User
from logbook.models import Comment, UnreadComment

COMMENTS_A_PAGE = 20
# More than this is said as "more than".
COUNTED_AT_MOST = 50


@dataclass(frozen=True)
class Unread:
    """How many comments a person has not read; `newest` is one of them."""

    count: int
    more: bool
    newest: Comment | None


def thread_of(client: Client, reader: User, number: str | None, **about: Any) -> Page:
    """Return a page of the comments with a client, latest first, in two queries.

    `about` narrows it to a session or a week. Whether the reader may see this client is for the caller to have checked.
    """
    rows = Comment.objects.filter(client=client, **about).marked_for(reader)
    rows = rows.select_related("author", "session__planned")
    page = Paginator(rows, COMMENTS_A_PAGE).get_page(number)
    page.object_list = list(page.object_list)
    return page


def unread_of(client: Client, reader: User) -> Unread:
    """Return what the reader has not read of one client's comments, in one query."""
    rows = UnreadComment.objects.filter(reader=reader, client=client).select_related("comment__author")
    found = [row.comment for row in rows.order_by("-comment__written_at", "-pk")[: COUNTED_AT_MOST + 1]]
    return Unread(min(len(found), COUNTED_AT_MOST), len(found) > COUNTED_AT_MOST, found[0] if found else None)
