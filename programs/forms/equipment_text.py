"""Lists of loads as people type them: "2.5, 5, 7.5", "20 x 2"."""

import re
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

_PAIR = re.compile(r"^(\S+?)(?:\s*[x×*]\s*(\d{1,3}))?$", re.IGNORECASE)
MOST_LISTED = 200


def number(text: str) -> float | int:
    """Read "2.5" or "2,5"; ValidationError otherwise. Whole numbers stay whole, as they were typed."""
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        raise ValidationError(_("%(text)s is not a number.") % {"text": text}) from None
    if not 0 <= value <= 2000:
        raise ValidationError(_("%(text)s is not a load from 0 to 2000.") % {"text": text})
    return int(value) if value == int(value) else value


def parts(text: str) -> list[str]:
    """Split at line ends, semicolons, and commas that have a space after them or no digits on both sides."""
    text = re.sub(r",(?=\s)", ";", text)
    # "2,4,6" is a list; "2,5" alone could be a decimal comma: two digits groups with one comma stay one number.
    if text.count(",") > 1 and ";" not in text and "\n" not in text.strip():
        text = text.replace(",", ";")
    return [part.strip() for part in re.split(r"[;\n]", text) if part.strip()]


class LoadsField(forms.CharField):
    """A list of loads."""

    def clean(self, value: Any) -> list[float | int]:
        found = [number(part) for part in parts(super().clean(value))]
        if len(found) > MOST_LISTED:
            raise ValidationError(_("At most %(most)d loads.") % {"most": MOST_LISTED})
        return found


class PairsField(forms.CharField):
    """Plates and how many pairs of each there are: "20 x 2"; a plate alone is one pair."""

    widget = forms.Textarea(attrs={"rows": 6})

    def clean(self, value: Any) -> list[list[float | int]]:
        found = []
        for part in parts(super().clean(value)):
            match = _PAIR.match(part)
            if match is None:
                raise ValidationError(_("Write each plate like 20 x 2, not %(text)s.") % {"text": part})
            found.append([number(match[1]), int(match[2] or 1)])
        return found


def loads_text(values: list[float | int]) -> str:
    return ", ".join(f"{value:g}" for value in values)


def pairs_text(pairs: list[list[float | int]]) -> str:
    return "\n".join(f"{plate:g} x {count}" for plate, count in pairs)
