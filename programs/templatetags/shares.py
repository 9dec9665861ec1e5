"""Shares of a set as a person reads them."""

from django import template

from programs.templatetags.loads import plain

register = template.Library()


@register.filter
def share(credit: float) -> str:
    """Show a credit without trailing zeros: 1, 0.5, 0.25."""
    return plain(credit)
