"""What an operation on a session must carry."""

from rest_framework import serializers

from logbook.models import SlotSkip
from logbook.operations import fields

MOST_MINUTES = 600


class SessionStart(serializers.Serializer):
    """`started_at` where the session began earlier than the operation was made."""

    session = fields.ClientId()
    planned = fields.RowId(required=False, allow_null=True, default=None)
    started_at = fields.Moment(required=False)


class SessionFinish(serializers.Serializer):
    """CR-10 effort of the whole session and its minutes; null where the client does not say."""

    session = fields.ClientId()
    session_rpe = fields.Halves(min_value=0, max_value=10, allow_null=True)
    minutes = fields.Whole(min_value=1, max_value=MOST_MINUTES, allow_null=True)
    note = fields.Text(required=False, max_length=2000)


class SessionNote(serializers.Serializer):
    session = fields.ClientId()
    note = fields.Text(max_length=2000)


class SessionDiscard(serializers.Serializer):
    """Take back a session in which nothing was ever logged."""

    session = fields.ClientId()


class SlotSkipped(serializers.Serializer):
    """Leave an exercise of the plan out (`skipped` false takes it back)."""

    session = fields.ClientId()
    slot = fields.RowId()
    skipped = fields.Flag(required=False, default=True)
    reason = serializers.ChoiceField(choices=SlotSkip.Reason.choices, required=False, default=SlotSkip.Reason.OTHER)
