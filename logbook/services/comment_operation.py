"""A comment that came from the client's phone, through the outbox."""

from django.utils.translation import gettext as _

from accounts import access
from logbook.models import Comment, Session
from logbook.operations.refused import Refused, id_not_usable, unknown_session
from logbook.operations.write import Applied, Write
from logbook.services.comments import comment_write


def comment_from_phone(*, write: Write) -> Applied:
    """Keep what the client wrote; refused where nobody trains them, since nobody would read it."""
    data, client = write.data, write.client
    if Comment.objects.filter(pk=data["comment"]).exists():
        raise id_not_usable()
    session = None
    if data["session"]:
        session = Session.objects.filter(pk=data["session"], client=client).first()
        if session is None:
            raise unknown_session()
    if not access.coaches_of(client).exists():
        raise Refused("no_coach", _("Nobody trains you at the moment, so nobody would read it."))
    comment = comment_write(
        client=client,
        author=client.user,
        text=data["text"],
        written_at=min(write.at, write.now),
        id=data["comment"],
        session=session,
    )
    return Applied({"comment": {"id": str(comment.pk), "written_at": comment.written_at.isoformat()}}, None)
