"""Loads as a person reads them."""

from typing import Any

from django import template
from django.utils.formats import number_format
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from periodization.units import from_kg, to_kg

register = template.Library()


def plain(value: float) -> str:
    """Write a load without trailing zeros, at most two decimals, in the reader's number format."""
    return number_format(round(value, 2), use_l10n=True).rstrip("0").rstrip(".,") if value % 1 else str(int(value))


@register.filter
def load_in(kg: float | None, unit: str) -> str | SafeString:
    """Show kilograms in `unit` ('kg' or 'lb') with a no-break space; a dash when there is no load."""
    if kg is None:
        return "–"
    # The unit was typed in pounds to the nearest tenth at best; more decimals would be noise of the conversion.
    shown = round(from_kg(kg, unit), 1 if unit == "lb" else 2)
    return mark_safe(f"{plain(shown)}&nbsp;{unit}")  # noqa: S308 - numbers and a two-letter unit only


def typed_in(load: float, typed: str, unit: str) -> SafeString:
    """Show a logged load as it was typed, and in brackets in the reader's `unit` where that is another."""
    text = f"{plain(load)}&nbsp;{typed}"
    if typed != unit:
        # To the nearest tenth: nobody loads a hundredth, and what was typed stands beside it.
        other = from_kg(to_kg(load, typed), unit)  # type: ignore[arg-type]
        text += f" ({plain(round(other, 1))}&nbsp;{unit})"
    return mark_safe(text)  # noqa: S308 - numbers and two-letter units only


def load_words(kg: float | None, unit: str, load_kind: str, equipment_kind: str, text: str = "") -> str:
    """Say a load as the phone does (logbook/wording.py): the body's weight and what is added, or the assistance.

    Empty where the equipment has no countable load; a dash when the load is not known. `text` says the load where it
    was typed (`typed_in`).
    """
    text = text or load_in(kg, unit)
    if kg is None:
        return text
    if load_kind == "body_plus":
        return mark_safe(_("body weight + %(load)s") % {"load": text}) if kg else _("body weight")  # noqa: S308
    if load_kind == "assisted":
        return mark_safe(_("%(load)s assistance") % {"load": text}) if kg else _("no assistance")  # noqa: S308
    return "" if not kg and equipment_kind == "none" else text


@register.simple_tag
def load_of(kg: float | None, exercise: Any, unit: str, times: str = "") -> str:
    """Say a load of `exercise` (its equipment loaded as well); `times` follows it, unless there is no load to say."""
    words = load_words(kg, unit, exercise.load_kind, exercise.equipment.kind)
    return format_html("{} {} ", words, times) if words and times else words


@register.simple_tag
def logged_load(done: Any, exercise: Any, unit: str, times: str = "") -> str:
    """Say the load of a logged set (`load`, `unit`, `load_kg`) as it was typed, as `load_of` says others."""
    text = typed_in(done.load, done.unit, unit)
    words = load_words(done.load_kg, unit, exercise.load_kind, exercise.equipment.kind, text)
    return format_html("{} {} ", words, times) if words and times else words


@register.filter
def span(low: int, high: int) -> str:
    """Show a range, or the one value when both ends are the same."""
    return str(low) if low == high else f"{low}–{high}"
