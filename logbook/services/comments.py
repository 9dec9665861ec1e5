"""Write, read and take back comments between a client and their coaches."""

import datetime as dt
import uuid
from collections.abc import Iterable

from django.db import transaction

from accounts import access
from accounts.models import Client, User
from logbook.models import Comment, Session, UnreadComment
from logbook.signals import comment_written


@transaction.atomic
def comment_write(
    *,
    client: Client,
    author: User,
    text: str,
    written_at: dt.datetime,
    id: uuid.UUID | None = None,
    session: Session | None = None,
    week: dt.date | None = None,
) -> Comment:
    """Keep a comment and mark it unread for everyone else it is addressed to: the client and who trains them today.

    Who the author is to the client is for the caller to have checked. The same `id` again returns what stands; one that
    somebody else has used is replaced.
    """
    if id and Comment.objects.filter(pk=id).exclude(client=client, author=author).exists():
        id = None
    comment, made = Comment.objects.get_or_create(
        pk=id or uuid.uuid4(),
        client=client,
        author=author,
        defaults={"session": session, "week": week, "text": text, "written_at": written_at},
    )
    if made:
        told = sorted({client.user_id, *access.coaches_of(client).values_list("pk", flat=True)} - {author.pk})
        UnreadComment.objects.bulk_create(
            UnreadComment(reader_id=reader, client=client, comment=comment) for reader in told
        )
        transaction.on_commit(lambda: comment_written.send(sender=Comment, comment_id=comment.pk, reader_ids=told))
    return comment


def comments_read(*, reader: User, ids: Iterable[uuid.UUID]) -> None:
    """Drop the reader's own marks of these comments; other people's stay."""
    UnreadComment.objects.filter(reader=reader, comment__in=list(ids)).delete()


@transaction.atomic
def comment_take_back(*, comment: Comment, now: dt.datetime) -> None:
    """Remove the text for good; that something was said and taken back stays visible."""
    comment.text, comment.taken_back_at = "", now
    comment.save(update_fields=["text", "taken_back_at"])
    UnreadComment.objects.filter(comment=comment).delete()
