"""One set, typed in."""

import datetime as dt
import uuid
from collections.abc import Sequence
from typing import Any

from django import forms
from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from accounts.models import LoadUnit, User
from logbook.far_load import far_from
from logbook.forms.numbers import TypedNumber
from logbook.forms.operation import OperationForm
from logbook.models import SetLog, Side
from logbook.next_set import in_unit
from logbook.operations.data_sets import SURE_LOAD_KG
from logbook.reads.panels import Panel
from periodization.units import to_kg
from programs.templatetags.loads import plain

RIR_CHOICES = [(str(n), str(n)) for n in range(5)] + [("more", _("5 or more")), ("unknown", _("don't know"))]


class SetValuesForm(OperationForm):
    """Load, repetitions, RIR: five large choices, more than four, or not known."""

    load = TypedNumber(label=_("Load"))
    unit = forms.ChoiceField(label=_("Unit of load"), choices=LoadUnit.choices)
    reps = TypedNumber(label=_("Repetitions"))
    rir = forms.ChoiceField(label=_("Repetitions in reserve"), choices=RIR_CHOICES, required=False)
    rir_more = TypedNumber(label=_("How many?"), required=False)
    note = forms.CharField(label=_("Note on this set"), max_length=300, required=False)
    warm_up = forms.BooleanField(label=_("Warm-up set"), required=False)
    confirmed = forms.BooleanField(label=_("Yes, this load is right"), required=False)
    side = forms.ChoiceField(choices=Side.choices, required=False)
    far = False

    def payload(self) -> dict[str, Any]:
        data = super().payload()
        data["rir"] = self._rir(data.pop("rir"), data.pop("rir_more"))
        data["side"] = data["side"] or Side.BOTH
        return data

    def _rir(self, choice: str, more: float | None) -> float | int | None:
        if choice == "more":
            return 5 if more is None else more
        return int(choice) if choice.isdigit() else None

    @property
    def asks_to_confirm(self) -> bool:
        """The load is so high, or so far from those before, that it is asked for once more."""
        return self.far or getattr(getattr(self, "refusal", None), "code", "") == "load_needs_confirming"

    def sure_of(self, earlier: Sequence[float], load_kind: str, standing: SetLog | None = None) -> bool:
        """Say whether the load may be saved: it is near those before (kg), or confirmed. Else ask beside its field.

        A load that stands and was said to be right is not asked about again.
        """
        data = self.cleaned_data
        kg = to_kg(data["load"], data["unit"])
        if standing is not None and standing.confirmed and kg == standing.load_kg:
            data["confirmed"] = True
        found = far_from(kg, earlier, load_kind, warm_up=data["warm_up"])
        if found is None or data["confirmed"] or not 0 <= kg <= SURE_LOAD_KG:
            return True
        self.far = True
        words = _("Really? Before it was %(last)s %(unit)s: say once more that this load is right.")
        self.add_error("load", words % {"last": plain(in_unit(found, data["unit"])), "unit": data["unit"]})
        return False


class SetForm(SetValuesForm):
    """A new set of a session."""

    kind = "set.record"
    set = forms.UUIDField(widget=forms.HiddenInput)
    slot = forms.IntegerField(widget=forms.HiddenInput, required=False)
    exercise = forms.IntegerField(widget=forms.HiddenInput)
    number = forms.IntegerField(widget=forms.HiddenInput)
    # An earlier planned session written down today: "then" puts it on its day.
    when = forms.CharField(required=False)
    opened_at = forms.DateTimeField(required=False)

    def payload(self) -> dict[str, Any]:
        data = super().payload()
        data.pop("when")
        data.pop("opened_at")
        return data


class SetEditForm(SetValuesForm):
    """New values of a logged set."""

    kind = "set.edit"


class RightForm(forms.Form):
    """A coach's word that a client's load is right; `seen` is the load it is said of, kg."""

    seen = forms.FloatField(widget=forms.HiddenInput)

    def say_of(self, row: SetLog) -> bool:
        """Keep it. False: the set has another load by now, or is deleted, and nothing was said of that."""
        if not self.is_valid():
            return False
        rows = SetLog.objects.filter(pk=row.pk, load_kg=self.cleaned_data["seen"], deleted_at=None)
        return bool(rows.update(confirmed=True))


class CorrectForm(SetEditForm):
    """A coach's values for a client's set; its side, its note and whether it was a warm-up stay the client's."""

    rir_more = TypedNumber(label=_("How many, if 5 or more?"), required=False)

    def payload(self) -> dict[str, Any]:
        data = super().payload()
        return {name: data[name] for name in ("load", "unit", "reps", "rir", "confirmed")}

    def sure_of(self, earlier: Sequence[float], load_kind: str, standing: SetLog | None = None) -> bool:
        if standing is not None:
            self.cleaned_data["warm_up"] = standing.warm_up
        return super().sure_of(earlier, load_kind, standing)

    def correct(self, row: SetLog, *, coach: User) -> bool:
        """Carry it out and note whose values stand. False: refused, the reasons stand beside the fields."""
        operation = self.cleaned_data["op"] = self.cleaned_data["op"] or uuid.uuid4()
        # The coach has seen the values that stand, even where a phone that is ahead wrote them in a minute to come.
        at = max(timezone.now(), row.edited_at + dt.timedelta(milliseconds=1))
        with transaction.atomic():
            done = self.save(row.client, at=at, set=row.pk)
            if done:
                # Not where this is a replay, and the client has edited the set since.
                SetLog.objects.filter(pk=row.pk, edited_by=operation).update(corrected_by=coach)
        return done


def rir_initial(rir: float | None) -> dict[str, Any]:
    """Return which choice stands for a RIR."""
    if rir is None:
        return {"rir": "unknown"}
    return {"rir": str(int(rir))} if rir in range(5) else {"rir": "more", "rir_more": rir}


def set_form_for(panel: Panel) -> SetForm:
    """Return the form of the panel's next set, filled in as prescribed, with fresh ids."""
    ask, step, entry = panel.ask, panel.step, panel.entry
    prescribed = rir_initial(ask["rir"]) if ask["rir"] is not None else {}
    return SetForm(
        initial={
            "op": uuid.uuid4(),
            "set": uuid.uuid4(),
            "slot": entry["slot"],
            "exercise": entry["exercise"]["id"],
            "number": step["number"],
            "side": step["side"],
            "load": ask["load"],
            "unit": ask["unit"],
            "reps": ask["reps"],
            **prescribed,
        }
    )
