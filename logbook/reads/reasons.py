"""The reason of a target in the reader's words."""

from typing import Any

from programs.sentences import Words, in_words


def reason_text(reason: dict[str, Any] | None, unit: str) -> str:
    """Return the sentence of a stored reason; empty where there is none, or a newer worker's code is not known here."""
    if not reason or not reason.get("code"):
        return ""
    text = in_words(reason["code"], reason.get("params") or {}, Words(unit))
    return "" if text == reason["code"] else text
