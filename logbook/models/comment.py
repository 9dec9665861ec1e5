"""What a client and their coaches say to each other, and who has not read it yet."""

import uuid
from typing import Any

from django.conf import settings
from django.db import models
from django.db.models import Exists, OuterRef, Q
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from logbook.models.owned import LoggedByClientQuerySet
from logbook.models.session import Session

MOST_CHARACTERS = 2000


class CommentQuerySet(LoggedByClientQuerySet):
    def writable_by(self, user: Any) -> "CommentQuerySet":
        """Those that `user` wrote, as long as they may still read them."""
        return self.visible_to(user).filter(author=user.pk)

    def marked_for(self, user: Any) -> "CommentQuerySet":
        """With `is_new`: the user has not read it yet."""
        return self.annotate(is_new=Exists(UnreadComment.objects.filter(reader=user.pk, comment=OuterRef("pk"))))


class Comment(models.Model):
    """Said about a session, about a week (its Monday in the client's calendar), or about nothing in particular.

    `id` is made where it was typed, so that one sent twice stands once. `written_at` is the writer's clock. A comment
    that was taken back keeps its place and loses its text.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="comments")
    # A session that is discarded leaves what was said about it.
    session = models.ForeignKey(Session, on_delete=models.SET_NULL, null=True, blank=True, related_name="comments")
    week = models.DateField(null=True, blank=True)
    # RESTRICT, not PROTECT: erasing a client takes their comments with them; a coach's account must outlive theirs.
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.RESTRICT, related_name="+")
    text = models.TextField(_("comment"), max_length=MOST_CHARACTERS, blank=True)
    written_at = models.DateTimeField()
    taken_back_at = models.DateTimeField(null=True, blank=True)

    objects = CommentQuerySet.as_manager()

    class Meta:
        ordering = ["-written_at", "-pk"]
        indexes = [models.Index(fields=["client", "-written_at"]), models.Index(fields=["client", "week"])]
        constraints = [
            models.CheckConstraint(condition=Q(session=None) | Q(week=None), name="comment_about_one_thing"),
        ]

    def __str__(self) -> str:
        return f"{self.author}: {self.text[:40]}"


class UnreadComment(models.Model):
    """One reader has not read one comment; the row goes when they have. `client` is here for a count without a join."""

    reader = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="+")
    comment = models.ForeignKey(Comment, on_delete=models.CASCADE, related_name="unread_by")

    class Meta:
        constraints = [models.UniqueConstraint(fields=["reader", "comment"], name="unread_once")]
        indexes = [models.Index(fields=["reader", "client"])]
