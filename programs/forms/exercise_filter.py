"""The filters above the list of exercises. A plain GET form: every state of the list is an address."""

from typing import Any

from django import forms
from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _

from accounts.models import Practice
from programs.forms.library_choices import action_choices, muscle_choices
from programs.models import GRADE_NAMES, Laterality, LoadKind
from programs.services.exercise_visible import equipment_of
from programs.services.grades import TITLES, WORDS

ANY = [("", _("any"))]


class ExerciseFilterForm(forms.Form):
    """Nothing here is required, and a value that is not understood filters nothing and says so beside its field."""

    q = forms.CharField(label=_("Name"), required=False, max_length=80)
    muscle = forms.ChoiceField(label=_("Trains"), required=False)
    counted = forms.ChoiceField(
        label=_("Counted"), required=False, choices=[("", _("direct or indirect")), ("direct", _("direct only"))]
    )
    equipment = forms.ChoiceField(label=_("Equipment"), required=False)
    action = forms.ChoiceField(label=_("Joint action"), required=False)
    sides = forms.ChoiceField(label=_("Sides"), required=False, choices=[*ANY, *Laterality.choices])
    load_kind = forms.ChoiceField(label=_("Kind of load"), required=False, choices=[*ANY, *LoadKind.choices])
    long = forms.BooleanField(label=_("loaded while long"), required=False)
    show = forms.ChoiceField(
        label=_("Show"),
        required=False,
        choices=[("", _("library and own")), ("own", _("own only")), ("archived", _("own, archived"))],
    )
    sort = forms.ChoiceField(label=_("Sort by"), required=False)

    def __init__(self, *args: Any, practice: Practice | None, coaching: bool, **kwargs: Any) -> None:
        """Offer grades and the practice's archive to coaches only: a client asks what to do, not what to judge by."""
        super().__init__(*args, label_suffix="", **kwargs)
        self.fields["muscle"].choices = [*ANY, *muscle_choices()]
        equipment = equipment_of(practice).values_list("pk", "name")
        self.fields["equipment"].choices = [*ANY, *((str(pk), capfirst(name)) for pk, name in equipment)]
        self.fields["action"].choices = [*ANY, *action_choices()]
        self.fields["sort"].choices = [("", _("name")), ("share", _("share for the muscle"))]
        self.fields["q"].widget.attrs |= {"type": "search", "autocomplete": "off"}
        if not coaching:
            del self.fields["show"]
            return
        self.fields["sort"].choices += [(name, TITLES[name]) for name in GRADE_NAMES]
        at_least = [*ANY, *((str(n), f"{n} {WORDS[n]}") for n in range(2, 6))]
        for name in GRADE_NAMES:
            self.fields[name] = forms.ChoiceField(label=TITLES[name], required=False, choices=at_least)

    def wanted(self) -> dict[str, Any]:
        """Return the filters that were understood and are set."""
        self.is_valid()
        return {name: value for name, value in self.cleaned_data.items() if value}

    @property
    def opened(self) -> bool:
        """Say whether a filter is set that is folded away otherwise."""
        return bool(self.wanted().keys() - {"q", "muscle", "equipment", "sort"} or self.errors)

    @property
    def main(self) -> list[forms.BoundField]:
        return [self[name] for name in ("q", "muscle", "equipment", "sort")]

    @property
    def more(self) -> list[forms.BoundField]:
        names = ("counted", "action", "sides", "load_kind", "show")
        return [self[name] for name in names if name in self.fields]

    @property
    def grades(self) -> list[forms.BoundField]:
        return [self[name] for name in GRADE_NAMES if name in self.fields]
