"""The reason of a target in the reader's words."""

from typing import Any

from django.utils.translation import gettext

from periodization.rules import Reason
from periodization.sentences import SENTENCES, sentence


def reason_text(reason: dict[str, Any] | None) -> str:
    """Return the sentence of a stored reason; empty where there is none, or a newer worker's code is not known here."""
    if not reason or reason.get("code") not in SENTENCES:
        return ""
    code, params = reason["code"], reason.get("params") or {}
    try:
        return sentence(Reason(code, params), {code: gettext(SENTENCES[code])})
    except KeyError:  # a placeholder without its value: say nothing rather than half a sentence
        return ""
