"""The screening questions as a form: each is answered with yes or no, and none is answered beforehand."""

from collections.abc import Iterator
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from logbook.screening_questions import PARTS, VERSION, WORDS
from periodization.screening import QUESTIONS


class ScreeningForm(forms.Form):
    note = forms.CharField(
        label=_("Anything your coach should know"),
        max_length=300,
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, label_suffix="", **kwargs)
        for code in QUESTIONS:
            self.fields[code] = forms.TypedChoiceField(
                label=WORDS[VERSION][code],
                choices=[("yes", _("yes")), ("no", _("no"))],
                widget=forms.RadioSelect,
                coerce=lambda value: value == "yes",
                error_messages={"required": _("Answer with yes or no.")},
            )

    def parts(self) -> Iterator[tuple[str, list[forms.BoundField]]]:
        """Yield a heading with its questions."""
        for heading, codes in PARTS:
            yield heading, [self[code] for code in codes]

    def answers(self) -> dict[str, bool]:
        return {code: self.cleaned_data[code] for code in QUESTIONS}
