"""Logged things in words."""

import datetime as dt
from typing import Any

from django import template

from logbook import wording

register = template.Library()

register.filter("set_words", wording.set_words)
register.simple_tag(wording.set_words, name="set_for")
register.filter("prescription", wording.prescription_words)
register.filter("prescription_sentence", wording.prescription_sentence)
register.filter("duration", wording.duration_words)
register.filter("side_words", wording.side_words)


@register.filter
def moment(text: str | None) -> dt.datetime | None:
    """Read an ISO time of the sheet, so that the date filters can show it in the person's zone."""
    return dt.datetime.fromisoformat(text) if text else None


@register.filter
def day(text: str | None) -> dt.date | None:
    """Read an ISO day of the sheet."""
    return dt.date.fromisoformat(text) if text else None


@register.filter
def typed(value: Any) -> str:
    """Write a number as it stands in an input: no trailing zeros, nothing for None."""
    if value is None or value == "":
        return ""
    return wording.plain(float(value)) if isinstance(value, int | float) else str(value)
