"""The kinds of operation: what each must carry, and the service that carries it out."""

from collections.abc import Callable
from dataclasses import dataclass

from rest_framework import serializers

from logbook.operations import data_comments, data_sessions, data_sets, data_wellbeing
from logbook.operations.write import Applied
from logbook.services import comment_operation, sessions, sets, skips, wellbeing


@dataclass(frozen=True, slots=True)
class Kind:
    data: type[serializers.Serializer]
    carry_out: Callable[..., Applied]


KINDS: dict[str, Kind] = {
    "session.start": Kind(data_sessions.SessionStart, sessions.session_start),
    "session.finish": Kind(data_sessions.SessionFinish, sessions.session_finish),
    "session.note": Kind(data_sessions.SessionNote, sessions.session_note),
    "session.discard": Kind(data_sessions.SessionDiscard, sessions.session_discard),
    "slot.skip": Kind(data_sessions.SlotSkipped, skips.slot_skip),
    "set.record": Kind(data_sets.SetRecord, sets.set_record),
    "set.edit": Kind(data_sets.SetEdit, sets.set_edit),
    "set.delete": Kind(data_sets.SetDelete, sets.set_delete),
    "checkin.record": Kind(data_wellbeing.CheckInRecord, wellbeing.checkin_record),
    "bodymass.record": Kind(data_wellbeing.BodyMassRecord, wellbeing.bodymass_record),
    "pain.report": Kind(data_wellbeing.PainReported, wellbeing.pain_report),
    "comment.write": Kind(data_comments.CommentWritten, comment_operation.comment_from_phone),
}
