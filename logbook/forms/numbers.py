"""Numbers as people type them in a gym: a comma is a decimal sign, and nothing typed is thrown away."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _


class TypedNumber(forms.CharField):
    """A number in text; "62,5" is 62.5. Limits are checked by the operation itself."""

    def to_python(self, value: Any) -> float | int | None:
        text = super().to_python(value).replace(",", ".").replace("\u00a0", "").strip()
        if not text:
            return None
        try:
            number = float(text)
        except ValueError:
            raise forms.ValidationError(_("This must be a number.")) from None
        return int(number) if number.is_integer() and abs(number) < 1e15 else number

    def validate(self, value: Any) -> None:
        if self.required and value is None:
            raise forms.ValidationError(self.error_messages["required"], code="required")

    def run_validators(self, value: Any) -> None:
        """The text validators of the parent do not apply to a number."""
