"""The session's other small forms: note, skip, finish, body mass, pain."""

import uuid
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from accounts.models import LoadUnit
from logbook.forms.numbers import TypedNumber
from logbook.forms.operation import OperationForm
from logbook.models import PainReport, SlotSkip

# Anchors of the category-ratio scale as Foster et al. 2001 printed them; 6, 8 and 9 have none.
CR10 = {
    0: pgettext_lazy("effort", "rest"),
    1: _("very, very easy"),
    2: _("easy"),
    3: _("moderate"),
    4: _("somewhat hard"),
    5: _("hard"),
    6: "",
    7: _("very hard"),
    8: "",
    9: "",
    10: _("maximal"),
}


class NoteForm(OperationForm):
    kind = "session.note"
    note = forms.CharField(label=_("Note on the session"), max_length=2000, required=False, widget=forms.Textarea)


class SkipForm(OperationForm):
    kind = "slot.skip"
    slot = forms.IntegerField(widget=forms.HiddenInput)
    skipped = forms.BooleanField(required=False)
    reason = forms.ChoiceField(label=_("Why?"), choices=SlotSkip.Reason.choices, required=False)

    def payload(self) -> dict[str, Any]:
        data = super().payload()
        data["reason"] = data["reason"] or SlotSkip.Reason.OTHER
        return data


class FinishForm(OperationForm):
    kind = "session.finish"
    session_rpe = forms.ChoiceField(
        label=_("How hard was the whole session?"),
        choices=[("", _("not rated"))] + [(str(n), str(n)) for n in CR10],
        required=False,
    )
    minutes = TypedNumber(label=_("Minutes"), required=False)
    note = forms.CharField(label=_("Note on the session"), max_length=2000, required=False, widget=forms.Textarea)

    def payload(self) -> dict[str, Any]:
        data = super().payload()
        data["session_rpe"] = int(data["session_rpe"]) if data["session_rpe"] else None
        return data


class BodyMassForm(OperationForm):
    kind = "bodymass.record"
    mass = TypedNumber(label=_("Body mass"))
    unit = forms.ChoiceField(choices=LoadUnit.choices)


class PainForm(OperationForm):
    kind = "pain.report"
    report = forms.UUIDField(widget=forms.HiddenInput)
    exercise = forms.IntegerField(widget=forms.HiddenInput, required=False)
    score = forms.ChoiceField(
        label=_("How bad, 0 to 10?"), choices=[(str(n), str(n)) for n in range(11)], widget=forms.RadioSelect
    )
    site = forms.ChoiceField(label=_("Where?"), choices=PainReport.Site.choices)
    side = forms.ChoiceField(label=_("Which side?"), choices=PainReport.Side.choices)
    note = forms.CharField(label=_("Note"), max_length=300, required=False)

    def payload(self) -> dict[str, Any]:
        data = super().payload()
        data["score"] = int(data["score"])
        return data


def fresh(form: type[OperationForm], **initial: Any) -> OperationForm:
    """Return an empty form with an operation id of its own."""
    return form(initial={"op": uuid.uuid4(), **initial})
