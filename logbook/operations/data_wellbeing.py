"""What an operation on check-in, body mass or pain must carry."""

from typing import Any

from django.utils.translation import gettext_lazy as _
from rest_framework import serializers

from accounts.models import LoadUnit
from logbook.models import PainReport
from logbook.operations import fields
from periodization.units import to_kg

# Outside this range a body mass is a slip of the thumb, or the other unit.
BODY_MASS_KG = (20.0, 400.0)
ITEMS = ("fatigue", "sleep", "soreness", "stress", "mood")


class CheckInRecord(serializers.Serializer):
    """Five items, 1 worst to 5 best, for one day (by default the day of the operation)."""

    date = fields.Day(required=False)
    fatigue = fields.Whole(min_value=1, max_value=5)
    sleep = fields.Whole(min_value=1, max_value=5)
    soreness = fields.Whole(min_value=1, max_value=5)
    stress = fields.Whole(min_value=1, max_value=5)
    mood = fields.Whole(min_value=1, max_value=5)
    sore_groups = serializers.ListField(child=fields.Text(max_length=50), max_length=40, required=False, default=list)
    note = fields.Text(required=False, default="", max_length=300)


class BodyMassRecord(serializers.Serializer):
    date = fields.Day(required=False)
    mass = fields.Number()
    unit = serializers.ChoiceField(choices=LoadUnit.choices)

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        attrs["mass_kg"] = to_kg(attrs["mass"], attrs["unit"])
        low, high = BODY_MASS_KG
        if not low <= attrs["mass_kg"] <= high:
            raise serializers.ValidationError(
                {"mass": _("A body mass lies between 20 and 400 kg (44 and 882 lb).")}, code="mass_out_of_range"
            )
        return attrs


class PainReported(serializers.Serializer):
    """0 none to 10 worst, and where."""

    report = fields.ClientId()
    session = fields.ClientId(required=False, allow_null=True, default=None)
    exercise = fields.RowId(required=False, allow_null=True, default=None)
    site = serializers.ChoiceField(choices=PainReport.Site.choices)
    side = serializers.ChoiceField(choices=PainReport.Side.choices, required=False, default=PainReport.Side.MIDDLE)
    score = fields.Whole(min_value=0, max_value=10)
    note = fields.Text(required=False, default="", max_length=300)
