"""What a comment sent from the phone must carry."""

from django.utils.translation import gettext_lazy as _
from rest_framework import serializers

from logbook.models.comment import MOST_CHARACTERS
from logbook.operations import fields


class CommentWritten(serializers.Serializer):
    """Text, and the session that it is about; without one it is about nothing in particular."""

    comment = fields.ClientId()
    session = fields.ClientId(required=False, allow_null=True, default=None)
    text = fields.Text(max_length=MOST_CHARACTERS)

    def validate_text(self, text: str) -> str:
        if not text.strip():
            raise serializers.ValidationError(_("Write something first."), code="empty")
        return text.strip()
