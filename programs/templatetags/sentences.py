"""Reasons in words on a page."""

from typing import Any

from django import template

from programs.sentences import Words, in_words

register = template.Library()


@register.filter
def sentence(reason: Any, words: Words | None = None) -> str:
    """Say a reason, `{"code", "params"}` or an object with both: `{{ reason|sentence:words }}`.

    `words` (programs.sentences.words_for) names groups and exercises and knows the reader's unit; without it loads
    are in kilograms and groups are called by their slug.
    """
    if not reason:
        return ""
    if isinstance(reason, dict):
        return in_words(reason["code"], reason.get("params") or {}, words)
    return in_words(reason.code, reason.params or {}, words)
