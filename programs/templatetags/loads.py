"""Loads as a person reads them."""

from django import template
from django.utils.formats import number_format
from django.utils.safestring import SafeString, mark_safe

from periodization.units import from_kg

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


@register.filter
def span(low: int, high: int) -> str:
    """Show a range, or the one value when both ends are the same."""
    return str(low) if low == high else f"{low}–{high}"
