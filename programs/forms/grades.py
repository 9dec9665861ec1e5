"""A practice's own grades for an exercise of the library."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from programs.models import GRADE_NAMES, Exercise, GradeOverride
from programs.services.grades import MEANINGS, TITLES, WORDS
from programs.services.grades_save import OwnGrade


class GradesForm(forms.Form):
    """For each grade a value, where empty means the library's, and the reason for it."""

    def __init__(self, *args: Any, exercise: Exercise, own: dict[str, GradeOverride], **kwargs: Any) -> None:
        super().__init__(*args, label_suffix="", **kwargs)
        for name in GRADE_NAMES:
            row, library = own.get(name), getattr(exercise, f"grade_{name}")
            as_library = _("as the library: %(value)d %(word)s") % {"value": library, "word": WORDS[library]}
            self.fields[name] = forms.TypedChoiceField(
                label=TITLES[name],
                help_text=str(MEANINGS[name]).capitalize(),
                choices=[("", as_library), *((n, f"{n} {WORDS[n]}") for n in range(1, 6))],
                coerce=int,
                empty_value=None,
                required=False,
                initial=row.value if row else None,
            )
            self.fields[f"{name}_reason"] = forms.CharField(
                label=gettext_lazy("Reason"), required=False, max_length=300, initial=row.reason if row else ""
            )
            # Four fields of the same name stand below each other: each says aloud which grade it is for.
            self.fields[f"{name}_reason"].widget.attrs["aria-label"] = _("Reason, %(grade)s") % {"grade": TITLES[name]}

    def clean(self) -> dict[str, Any]:
        values = super().clean()
        for name in GRADE_NAMES:
            if values.get(name) and not values.get(f"{name}_reason"):
                self.add_error(f"{name}_reason", _("Say why the practice grades this otherwise."))
            elif not values.get(name) and name not in self.errors and values.get(f"{name}_reason"):
                self.add_error(name, _("A reason is given: choose the grade, or empty the reason."))
        return values

    def grades(self) -> dict[str, OwnGrade]:
        """Return the grades that are the practice's own."""
        values = self.cleaned_data
        return {name: OwnGrade(values[name], values[f"{name}_reason"]) for name in GRADE_NAMES if values[name]}

    @property
    def pairs(self) -> list[tuple[forms.BoundField, forms.BoundField]]:
        return [(self[name], self[f"{name}_reason"]) for name in GRADE_NAMES]
