"""A practice's own exercise, but for its credits and variants, which are rows beside it."""

from typing import Any

from django import forms
from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _

from accounts.models import Practice
from programs.forms.library_choices import action_choices, limit_choices
from programs.models import GRADE_NAMES, Equipment, Exercise, JointAction, Limit, LoadKind
from programs.services.exercise_visible import equipment_of
from programs.services.grades import MEANINGS, TITLES, WORDS

PLAIN = ("name", "equipment", "laterality", "load_kind", "body_share", "rep_unit", "compound", "set_up")
PLAIN += ("rest_s", "rep_s", "setup_s", "limits_judged")


class LinesField(forms.CharField):
    """Text with one entry a line; gives a list without empty lines."""

    widget = forms.Textarea(attrs={"rows": 5})

    def clean(self, value: Any) -> list[str]:
        text = super().clean(value)
        return [line.strip() for line in text.splitlines() if line.strip()]


class ExerciseForm(forms.ModelForm):
    cues = LinesField(label=_("Cues"), help_text=_("One a line: what to tell the client."))
    cautions = LinesField(
        label=_("Cautions"),
        help_text=_("One a line: what can hurt, and what to do about it. They are shown wherever the exercise is."),
    )

    class Meta:
        model = Exercise
        fields = (*PLAIN, "actions", "limits")
        boxes = forms.CheckboxSelectMultiple
        widgets = {"actions": boxes, "limits": boxes, "set_up": forms.Textarea(attrs={"rows": 5})}

    def __init__(self, *args: Any, practice: Practice, **kwargs: Any) -> None:
        super().__init__(*args, label_suffix="", **kwargs)
        at_hand = equipment_of(practice)
        if self.instance.pk:  # what it is made with stays a choice after it was archived
            at_hand = at_hand | Equipment.objects.filter(pk=self.instance.equipment_id)
        self.fields["equipment"].queryset = at_hand
        self.fields["equipment"].label = _("Equipment")
        self.fields["equipment"].label_from_instance = lambda row: capfirst(row.name)
        self.fields["actions"].choices = action_choices("pk")
        self.fields["limits"].choices = limit_choices()
        self.fields["limits"].help_text = _("What a client may have been told to keep from. Tick all that it has.")
        self.fields["limits_judged"].label = _("I went through this list")
        self.fields["limits_judged"].help_text = _("Until then the exercise is not given to a client with a limit.")
        for name, most in (("rest_s", 900), ("rep_s", 30), ("setup_s", 900)):
            self.fields[name].widget.attrs["max"] = self.fields[name].max_value = most
            self.fields[name].validators.append(forms.IntegerField(max_value=most).validators[0])
        share = self.fields["body_share"]
        share.required = False
        share.help_text = _("Where the body is part of the load: 1 in a pull-up, about 0.64 in a push-up. Empty: 1.")
        values = [("", "–"), *((n, f"{n} {WORDS[n]}") for n in range(1, 6))]
        for name in GRADE_NAMES:
            self.fields[name] = forms.TypedChoiceField(
                label=TITLES[name], choices=values, coerce=int, help_text=capfirst(MEANINGS[name])
            )
            self.fields[f"{name}_reason"] = forms.CharField(label=_("Reason"), required=False, max_length=300)
            # Four fields of the same name stand below each other: each says aloud which grade it is for.
            self.fields[f"{name}_reason"].widget.attrs["aria-label"] = _("Reason, %(grade)s") % {"grade": TITLES[name]}

    @property
    def grades(self) -> list[tuple[forms.BoundField, forms.BoundField]]:
        return [(self[name], self[f"{name}_reason"]) for name in GRADE_NAMES]

    def clean(self) -> dict[str, Any]:
        values = super().clean()
        # Only where the body is part of the load does it move a share of it.
        if values.get("body_share") is None or values.get("load_kind") == LoadKind.EXTERNAL:
            values["body_share"] = 1.0
        if values.get("limits"):
            values["limits_judged"] = True
        equipment, kind = values.get("equipment"), values.get("load_kind")
        if equipment and kind == LoadKind.ASSISTED and equipment.kind not in ("assisted", "none"):
            self.add_error("load_kind", _("This equipment gives no help. Choose an assisted station or a band."))
        if equipment and equipment.kind == "assisted" and kind and kind != LoadKind.ASSISTED:
            self.add_error("load_kind", _("On an assisted station the load is body weight minus assistance."))
        return values

    def trained(self) -> list[JointAction]:
        """Return the joint actions chosen, once the form was checked."""
        return list(self.cleaned_data.get("actions", []))

    def limits(self) -> list[Limit]:
        """Return the joint stresses and positions chosen, once the form was checked."""
        return list(self.cleaned_data.get("limits", []))

    def columns(self) -> dict[str, Any]:
        """Return the values for the row, without its joint actions."""
        values = self.cleaned_data
        return {
            **{name: values[name] for name in (*PLAIN, "cues", "cautions")},
            **{f"grade_{name}": values[name] for name in GRADE_NAMES},
            "grade_reasons": {name: values[f"{name}_reason"] for name in GRADE_NAMES if values[f"{name}_reason"]},
        }
