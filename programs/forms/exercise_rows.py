"""The rows below an exercise: what a set counts for, and its variants."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from programs.models import ExerciseLink

EMPTY_ROWS = 3
MOST_ROWS = 40


class CreditRow(forms.Form):
    head = forms.TypedChoiceField(label=gettext_lazy("Muscle"), coerce=int)
    credit = forms.FloatField(
        label=gettext_lazy("Counts"),
        min_value=0.05,
        max_value=1,
        widget=forms.NumberInput(attrs={"step": "0.05", "inputmode": "decimal"}),
    )
    loaded_long = forms.BooleanField(label=gettext_lazy("Loaded while long"), required=False)
    long_by = forms.TypedChoiceField(
        label=gettext_lazy("Other joint held in"), coerce=int, required=False, empty_value=None
    )

    def __init__(self, *args: Any, heads: list, positions: list, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["head"].choices = [("", "–"), *heads]
        self.fields["long_by"].choices = [("", "–"), *positions]
        _name_for_readers(self)


class LinkRow(forms.Form):
    kind = forms.ChoiceField(label=gettext_lazy("As"))
    other = forms.TypedChoiceField(label=gettext_lazy("Exercise"), coerce=int)

    def __init__(self, *args: Any, exercises: list, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["kind"].choices = [("", "–"), *ExerciseLink.Kind.choices]
        self.fields["other"].choices = [("", "–"), *exercises]
        _name_for_readers(self)


def _name_for_readers(row: forms.Form) -> None:
    """Say which row a control belongs to: the visible names stand above the columns only."""
    number = int(row.prefix.rsplit("-", 1)[1]) + 1 if row.prefix and row.prefix[-1].isdigit() else 0
    for field in row.fields.values():
        field.widget.attrs["aria-label"] = _("%(field)s, row %(number)d") % {"field": field.label, "number": number}


class Rows(forms.BaseFormSet):
    """Rows of which the fields `key` may not repeat. A row that is empty or marked to be removed is not looked at."""

    key: tuple[str, ...] = ()
    twice: Any = ""

    def initial_form_count(self) -> int:
        """Treat every row as a new one, so that emptying it is as good as removing it."""
        return 0

    def add_fields(self, form: forms.Form, index: int | None) -> None:
        super().add_fields(form, index)
        form.fields["DELETE"].label = _("Remove")
        _name_for_readers(form)

    def kept(self) -> list[forms.Form]:
        """Return the rows that are filled in and stay, once they were checked."""
        return [form for form in self.forms if form.has_changed() and not form.cleaned_data.get("DELETE")]

    def clean(self) -> None:
        seen = set()
        for form in self.kept():
            value = tuple(form.cleaned_data.get(name) for name in self.key)
            if value in seen and None not in value:
                form.add_error(self.key[0], self.twice)
            seen.add(value)


class CreditRows(Rows):
    key = ("head",)
    twice = gettext_lazy("This muscle is in another row already.")

    def clean(self) -> None:
        super().clean()
        if not self.kept():
            raise ValidationError(_("Name at least one muscle that a set counts for."))


class LinkRows(Rows):
    key = ("other", "kind")
    twice = gettext_lazy("This exercise is in another row already.")

    def clean(self) -> None:
        super().clean()
        harder = {
            v["other"] for form in self.kept() if (v := form.cleaned_data).get("kind") == "harder" and "other" in v
        }
        for form in self.kept():
            values = form.cleaned_data
            if values.get("kind") == "easier" and values.get("other") in harder:
                form.add_error("kind", _("The same exercise is named as a harder variant."))


def rows(row: type[forms.Form], kind: type[Rows], *, data: Any, initial: list[dict[str, Any]], **options: Any) -> Rows:
    """Make the rows: those of `initial` and some empty ones, or those that were sent."""
    extra = len(initial) + EMPTY_ROWS
    made = forms.formset_factory(
        row, formset=kind, can_delete=True, extra=extra, max_num=MOST_ROWS, absolute_max=MOST_ROWS, validate_max=True
    )
    return made(data, initial=None if data is not None else initial, **options)
