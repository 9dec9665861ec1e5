"""The shapes of the API: for its description (/api/v1/schema/) and for the answers made of rows."""

from typing import Any

from drf_spectacular.utils import PolymorphicProxySerializer, inline_serializer
from rest_framework import serializers

from logbook.models import CheckIn, Comment, Session, SetHistory, SetLog
from logbook.operations.fields import ClientId, Moment
from logbook.operations.kinds import KINDS


class Problem(serializers.Serializer):
    """Problem details (RFC 9457). `code` is stable, `title` is in the reader's language, `errors` go by field."""

    type = serializers.CharField()
    title = serializers.CharField()
    status = serializers.IntegerField()
    code = serializers.CharField()
    errors = serializers.DictField(required=False)


def _operation(kind: str, data: type[serializers.Serializer]) -> serializers.Serializer:
    name = "".join(part.title() for part in kind.replace(".", "_").split("_")) + "Operation"
    return inline_serializer(
        name,
        {"id": ClientId(), "kind": serializers.ChoiceField(choices=[kind]), "at": Moment(), "data": data()},
    )


AnyOperation = PolymorphicProxySerializer(
    component_name="Operation",
    serializers={kind: _operation(kind, found.data) for kind, found in KINDS.items()},
    resource_type_field_name="kind",
    many=True,
)


class Batch(serializers.Serializer):
    operations = AnyOperation


class Answer(serializers.Serializer):
    """`result` is the first result, also at a replay; "retry": a fault of the server, keep the operation."""

    id = serializers.CharField(allow_null=True)
    status = serializers.ChoiceField(choices=["saved", "replayed", "refused", "retry"])
    result = serializers.DictField(required=False)
    problem = Problem(required=False)


class Answers(serializers.Serializer):
    results = Answer(many=True)


class HistoryShape(serializers.ModelSerializer):
    class Meta:
        model = SetHistory
        fields = ("values", "won", "edited_at", "recorded_at")


class SetShape(serializers.ModelSerializer):
    """A logged set. Load as typed with its unit, kilograms beside it; `deleted_at` is set on a set taken out.
    `confirmed`: the client or a coach said that this load is right."""

    class Meta:
        model = SetLog
        fields = (
            "id", "session", "slot", "exercise", "number", "side", "warm_up", "load", "unit", "load_kg", "reps", "rir",
            "note", "confirmed", "performed_at", "edited_at", "deleted_at",
        )  # fmt: skip


class SetDetailShape(SetShape):
    history = HistoryShape(many=True)

    class Meta(SetShape.Meta):
        fields = (*SetShape.Meta.fields, "history")


class SessionShape(serializers.ModelSerializer):
    sets_logged = serializers.IntegerField(read_only=True, help_text="Sets that stand, without warm-ups.")

    class Meta:
        model = Session
        fields = (
            "id", "planned", "date", "started_at", "finished_at", "session_rpe", "minutes", "note", "sets_logged",
        )  # fmt: skip


class SessionDetailShape(SessionShape):
    sets = SetDetailShape(many=True)

    class Meta(SessionShape.Meta):
        fields = (*SessionShape.Meta.fields, "sets", "earlier")


class CheckInShape(serializers.ModelSerializer):
    total = serializers.IntegerField(read_only=True, help_text="Sum of the five items, 5 to 25; more is better.")

    class Meta:
        model = CheckIn
        fields = (
            "id", "date", "fatigue", "sleep", "soreness", "stress", "mood", "total", "sore_groups", "note", "edited_at",
            "earlier",
        )  # fmt: skip


class CommentShape(serializers.ModelSerializer):
    author = serializers.CharField(read_only=True, help_text="Name of who wrote it.")
    is_new = serializers.BooleanField(read_only=True)

    class Meta:
        model = Comment
        fields = ("id", "session", "week", "author", "text", "written_at", "taken_back_at", "is_new")


class PlannedExerciseShape(serializers.Serializer):
    key = serializers.CharField()
    slot = serializers.IntegerField()
    pair = serializers.CharField(help_text="A1 and A2 are done in alternation; empty: on its own.")
    exercise = serializers.DictField(help_text="Name, set-up, cues, cautions, equipment, sides, kind of load.")
    ladder = serializers.CharField(help_text="Which of `ladders` the equipment makes.")
    prescription = serializers.DictField()
    target = serializers.DictField(allow_null=True, help_text="Next load (kg) and repetitions with the reason.")
    last = serializers.DictField(allow_null=True, help_text="Date and sets of the last session with the exercise.")


class PlannedShape(serializers.Serializer):
    planned = serializers.IntegerField()
    session = serializers.UUIDField(help_text="The id under which every device logs this session.")
    date = serializers.DateField()
    day_name = serializers.CharField()
    block_name = serializers.CharField()
    week_number = serializers.IntegerField()
    is_deload = serializers.BooleanField()
    started = serializers.BooleanField()
    finished = serializers.BooleanField()
    exercises = PlannedExerciseShape(many=True)


class PlanShape(serializers.Serializer):
    days = serializers.IntegerField()
    unit = serializers.CharField()
    body_mass = serializers.DictField(allow_null=True)
    ladders = serializers.DictField(help_text="Loads in kg from light to heavy; for bars the plates of one side.")
    sessions = PlannedShape(many=True)

    def get_fields(self) -> dict[str, Any]:
        # `from` is a word of Python and cannot be declared above.
        return {"from": serializers.DateField(), **super().get_fields()}
