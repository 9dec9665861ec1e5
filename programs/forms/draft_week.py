"""Days, equipment, limits and dose of a drafted week."""

from collections.abc import Iterable, Mapping
from itertools import groupby
from typing import Any

from django import forms
from django.utils.dates import WEEKDAYS
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from accounts.models.client import TrainingStatus
from periodization.draft import DEFAULT_PRESCRIPTIONS
from programs.document.errors import EditError
from programs.document.ranges import read_range, show_range
from programs.models import Equipment, JointAction, Limit
from programs.services import draft_bounds as bounds
from programs.services.draft_ask import AskedDay, AskedDose, Range
from programs.views.program_forms import PlainForm

DOSES = ("compound", "single")


class RangeField(forms.CharField):
    """`8`, `8-12` or `8 to 12`; both ends as a tuple, None when empty."""

    def __init__(self, *, within: Range, **kwargs: Any) -> None:
        super().__init__(
            required=kwargs.pop("required", False),
            max_length=20,
            widget=forms.TextInput(attrs={"inputmode": "numeric", "autocomplete": "off"}),
            **kwargs,
        )
        self.within = within

    def clean(self, value: Any) -> Range | None:
        text = super().clean(value)
        if not text:
            return None
        try:
            return read_range(text, self.within, "", str(self.label))
        except EditError as error:
            raise forms.ValidationError(str(error)) from error


def number(label: Any, within: Range, **kwargs: Any) -> forms.IntegerField:
    return forms.IntegerField(label=label, min_value=within[0], max_value=within[1], **kwargs)


class WeekForm(PlainForm):
    """`minutes-0` (Monday) to `minutes-6`: empty where nobody trains."""

    name = forms.CharField(label=_("Name"), max_length=120)
    status = forms.ChoiceField(
        label=_("Training status"),
        choices=TrainingStatus.choices,
        help_text=_("Sets the usual weekly ranges, repetitions and RIR where you give none."),
    )
    slots_per_day = number(_("Exercises a day, at most"), bounds.SLOTS_A_DAY)
    sets = RangeField(label=_("Sets of an exercise"), within=bounds.SETS_A_DAY, required=True)
    session_cap = number(
        _("Sets of a muscle group on one day, at most"),
        bounds.SETS_A_DAY,
        help_text=_("Fractional sets: what is trained along counts its share."),
    )
    pairs = forms.BooleanField(
        label=_("Pair exercises that do not disturb each other"),
        required=False,
        help_text=_("Saves about a third of the time, where stations can be kept free."),
    )
    spacing_must = forms.BooleanField(
        label=_("48 hours between two days for the same group are a must"),
        required=False,
        help_text=_("Otherwise it is a wish, weighed against the others."),
    )
    equipment_choice = forms.ChoiceField(
        label=_("Equipment"),
        choices=[("all", _("all there is")), ("these", _("only these:"))],
        widget=forms.RadioSelect,
    )
    equipment = forms.TypedMultipleChoiceField(coerce=int, required=False)
    limits = forms.MultipleChoiceField(required=False)
    actions = forms.MultipleChoiceField(required=False)
    seconds = number(
        _("Time for the search, seconds"),
        bounds.SECONDS,
        help_text=_("It ends earlier when the week is within 0.5 % of the best."),
    )
    seed = number(_("Seed"), bounds.SEED, help_text=_("The same request with the same seed gives the same week."))

    def __init__(
        self,
        *args: Any,
        equipment: Iterable[Equipment],
        limits: Iterable[Limit],
        actions: Iterable[JointAction],
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.pieces, self.limit_rows, self.action_rows = list(equipment), list(limits), list(actions)
        self.fields["equipment"].choices = [(row.pk, row.name) for row in self.pieces]
        self.fields["limits"].choices = [(row.slug, row.name) for row in self.limit_rows]
        self.fields["actions"].choices = [(row.slug, str(row)) for row in self.action_rows]
        for day, name in WEEKDAYS.items():
            self.fields[f"minutes-{day}"] = number(name, bounds.MINUTES, required=False)
        usual = DEFAULT_PRESCRIPTIONS[self.initial.get("status") or "intermediate"]
        for kind in DOSES:
            base = getattr(usual, kind)
            for part, label, within in (("reps", _("Repetitions"), bounds.REPS), ("rir", _("RIR"), bounds.RIR)):
                field = self.fields[f"{part}_{kind}"] = RangeField(label=label, within=within)
                field.widget.attrs["placeholder"] = show_range(getattr(base, part))

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        given = [values.get(f"minutes-{day}") for day in range(7)]
        wrong = any(self.has_error(f"minutes-{day}") for day in range(7))
        if not any(given) and not wrong:
            self.add_error("minutes-0", gettext("Give the minutes of at least one weekday."))
        if values.get("equipment_choice") == "these" and not values.get("equipment"):
            self.add_error("equipment", gettext("Tick at least one piece of equipment, or choose all there is."))
        for kind in DOSES:
            reps, rir = values.get(f"reps_{kind}"), values.get(f"rir_{kind}")
            for part, other in ((f"reps_{kind}", rir), (f"rir_{kind}", reps)):
                if other and not values.get(part) and not self.has_error(part):
                    self.add_error(part, gettext("Give repetitions and RIR, or neither."))
        return values

    def days(self) -> tuple[AskedDay, ...]:
        given = {day: self.cleaned_data.get(f"minutes-{day}") for day in range(7)}
        return tuple(AskedDay(day, minutes) for day, minutes in given.items() if minutes)

    def dose(self, kind: str) -> AskedDose | None:
        reps, rir = self.cleaned_data[f"reps_{kind}"], self.cleaned_data[f"rir_{kind}"]
        return AskedDose(reps, rir) if reps and rir else None

    # What the template walks over.

    def day_fields(self) -> list[forms.BoundField]:
        return [self[f"minutes-{day}"] for day in range(7)]

    def dose_fields(self) -> list[tuple[str, list[forms.BoundField]]]:
        titles = {"compound": gettext("Over several joints"), "single": gettext("Over one joint")}
        return [(titles[kind], [self[f"reps_{kind}"], self[f"rir_{kind}"]]) for kind in DOSES]

    def equipment_ticks(self) -> list[tuple[Equipment, bool]]:
        ticked = set(map(str, self["equipment"].value() or ()))
        return [(row, str(row.pk) in ticked) for row in self.pieces]

    def limit_ticks(self) -> Mapping[str, list[tuple[Limit, bool]]]:
        ticked = set(self["limits"].value() or ())
        found: dict[str, list[tuple[Limit, bool]]] = {}
        for row in self.limit_rows:
            found.setdefault(str(row.get_site_display()), []).append((row, row.slug in ticked))
        return found

    def action_ticks(self) -> list[tuple[str, list[tuple[JointAction, bool]]]]:
        ticked = set(self["actions"].value() or ())
        joints = groupby(self.action_rows, key=lambda row: row.joint)
        return [(joint, [(row, row.slug in ticked) for row in rows]) for joint, rows in joints]

    def ticked_actions(self) -> int:
        return len(self["actions"].value() or ())
