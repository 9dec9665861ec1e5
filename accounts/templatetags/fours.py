"""Keys in groups, as people type them."""

from django import template

register = template.Library()


@register.filter
def in_fours(text: str) -> str:
    """Return the text with a space after each four characters; authenticator apps leave the spaces out."""
    return " ".join(text[start : start + 4] for start in range(0, len(text), 4))
