"""The daily check-in: five published items with their anchors in words."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from logbook.forms.operation import OperationForm

# Items and anchors 5 (best) to 1 (worst) after McLean et al. 2010, as printed in the public form cited in docs.
ITEMS: dict[str, tuple[Any, dict[int, Any]]] = {
    "fatigue": (
        _("Fatigue"),
        {5: _("very fresh"), 4: _("fresh"), 3: _("normal"), 2: _("more tired than normal"), 1: _("very tired")},
    ),
    "sleep": (
        _("Sleep quality"),
        {5: _("very restful"), 4: _("good"), 3: _("difficulty falling asleep"), 2: _("restless"), 1: _("insomnia")},
    ),
    "soreness": (
        _("General muscle soreness"),
        {5: _("feeling great"), 4: _("good"), 3: _("normal"), 2: _("increased"), 1: _("very sore")},
    ),
    "stress": (
        _("Stress"),
        {5: _("very relaxed"), 4: _("relaxed"), 3: _("normal"), 2: _("stressed"), 1: _("very stressed")},
    ),
    "mood": (
        _("Mood"),
        {
            5: _("very positive"),
            4: _("good"),
            3: _("less interested"),
            2: _("more agitated"),
            1: _("highly annoyed, irritable or down"),
        },
    ),
}


def item_field(name: str) -> forms.TypedChoiceField:
    label, anchors = ITEMS[name]
    choices = [(value, words) for value, words in anchors.items()]
    return forms.TypedChoiceField(label=label, choices=choices, coerce=int, widget=forms.RadioSelect)


class CheckInForm(OperationForm):
    kind = "checkin.record"
    fatigue = item_field("fatigue")
    sleep = item_field("sleep")
    soreness = item_field("soreness")
    stress = item_field("stress")
    mood = item_field("mood")
    sore_groups = forms.MultipleChoiceField(
        label=_("Which muscles are still sore?"), required=False, widget=forms.CheckboxSelectMultiple
    )
    note = forms.CharField(label=_("Note"), max_length=300, required=False)

    def __init__(self, *args: Any, groups: list[tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["sore_groups"].choices = groups
