"""What an operation on a set must carry.

Loads: 0 or more; over MOST_LOAD_KG they are refused, since no one lifts that; over SURE_LOAD_KG they are refused until
`confirmed` is true, so that a slipped key is asked about once and a true sled press can still be written down. A load
far from those before (logbook/far_load.py) is asked about on the pages only: whoever sends it here has asked, or was
offline, and nothing that was done is refused for being unusual.
"""

from typing import Any

from django.utils.translation import gettext_lazy as _
from rest_framework import serializers

from accounts.models import LoadUnit
from logbook.models import Side
from logbook.operations import fields
from periodization.units import to_kg

MOST_LOAD_KG = 1000.0
SURE_LOAD_KG = 600.0
MOST_REPS = 100
# Where "repetitions" counts seconds held or steps walked, more than 100 are possible.
MOST_COUNT = {"reps": MOST_REPS, "seconds": 600, "steps": 400}
MOST_RIR = 10


class SetValues(serializers.Serializer):
    """Load in the unit it was typed in, repetitions (0 to 100; seconds held to 600, steps to 400), repetitions in
    reserve (0 to 10 in halves; null: not known). Over 600 kg `confirmed` must be true; over 1000 kg is refused. Below
    600 kg it may be sent with any load: ask about one that is far from those before, as the pages do. It is kept with
    the set, which then is not marked as a slip; an edit to another load without it takes it back."""

    load = fields.Number(min_value=0)
    unit = serializers.ChoiceField(choices=LoadUnit.choices)
    reps = fields.Whole(min_value=0, max_value=max(MOST_COUNT.values()))
    rir = fields.Halves(min_value=0, max_value=MOST_RIR, allow_null=True)
    note = fields.Text(required=False, max_length=300)
    confirmed = fields.Flag(required=False, default=False)

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        kg = attrs["load_kg"] = to_kg(attrs["load"], attrs["unit"])
        if kg > MOST_LOAD_KG:
            raise serializers.ValidationError(
                {"load": _("Over 1000 kg: this load cannot be saved.")}, code="load_too_high"
            )
        if kg > SURE_LOAD_KG and not attrs["confirmed"]:
            raise serializers.ValidationError(
                {"load": _("Really? Over 600 kg: say once more that this load is right.")}, code="load_needs_confirming"
            )
        return attrs


class SetRecord(SetValues):
    """A new set. `number` counts from 1 within exercise and session; both sides of a one-sided set share it."""

    set = fields.ClientId()
    session = fields.ClientId()
    exercise = fields.RowId()
    slot = fields.RowId(required=False, allow_null=True, default=None)
    number = fields.Whole(min_value=1, max_value=100)
    side = serializers.ChoiceField(choices=Side.choices, required=False, default=Side.BOTH)
    warm_up = fields.Flag(required=False, default=False)
    performed_at = fields.Moment(required=False)


class SetEdit(SetValues):
    """New values of a set. What is left out stays; send everything where two devices may edit the same set."""

    set = fields.ClientId()
    side = serializers.ChoiceField(choices=Side.choices, required=False)
    warm_up = fields.Flag(required=False)


class SetDelete(serializers.Serializer):
    set = fields.ClientId()
